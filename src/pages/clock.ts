/** Where a session's time comes from: the browser's clock while the page can be seen, or a test that turns it by hand. */

/** Time that runs and can be stopped. Milliseconds. */
export interface Clock {
  /** Milliseconds run so far, stops left out. */
  now(): number;
  /** What that was at the instant of an input event, never before the last stop. */
  at(stamp_ms: number | undefined): number;
  start(): void;
  stop(): void;
  /** Takes back time that ran while nobody was there. */
  skip(ms: number): void;
  /** Whether it can run on while the computer sleeps. */
  readonly sleeps: boolean;
}

/** Follows the browser's clock. */
export class WallClock implements Clock {
  readonly sleeps = true;
  private base = 0;
  private since: number | undefined;

  now(): number {
    return this.at(performance.now());
  }

  at(stamp_ms: number | undefined): number {
    if (this.since === undefined) return this.base;
    return this.base + Math.max(0, (stamp_ms ?? performance.now()) - this.since);
  }

  start(): void {
    this.since ??= performance.now();
  }

  stop(): void {
    this.base = this.now();
    this.since = undefined;
  }

  skip(ms: number): void {
    this.base -= ms;
  }
}

/** Stands still until it is told to go on. */
export class HandClock implements Clock {
  readonly sleeps = false;
  private ms = 0;
  private running = false;
  now(): number {
    return this.ms;
  }
  at(): number {
    return this.ms;
  }
  start(): void {
    this.running = true;
  }
  stop(): void {
    this.running = false;
  }
  skip(): void {}
  /** Turns it on by so much; nothing while it is stopped. */
  advance(ms: number): void {
    if (this.running) this.ms += ms;
  }
}
