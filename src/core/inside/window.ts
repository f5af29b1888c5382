/** The stretch of time that a look shows: one letter with a little before and after, or a running stretch when none is on its way. */
import type { Edge } from '../signals.ts';
import { type Case, isFunction, nameOf, printCode } from '../telegraphy/ita2.ts';
import { charsInStep, type ReadChar } from '../telegraphy/selector.ts';
import { levelAt } from '../telegraphy/startstop.ts';

/** Bauds of the whole station. */
export const BAUD = 50;
/** One unit at 50 Bd, us. */
export const UNIT_US = 20_000;
const BEFORE_US = UNIT_US / 2;
const AFTER_US = 8 * UNIT_US + 2000;
/** A letter is looked at until so long after its start. */
const STAYS_US = 400_000;

/** A character on a line. */
export interface Letter {
  /** When its start element begins. */
  readonly start_us: number;
  /** 0..31. */
  readonly code: number;
  /** What a printer would make of it, or the name of what it does. */
  readonly name: string;
}

/** What is shown: from, to and now on one clock. */
export interface Window {
  readonly from_us: number;
  readonly to_us: number;
  readonly now_us: number;
  readonly letter: Letter | null;
  /** Starts of the letters before, latest last, that can still be looked at. */
  readonly earlier: readonly number[];
}

/** A piece of a two-state line, as shares 0..1 of a window. */
export interface Piece {
  readonly from: number;
  readonly to: number;
  readonly mark: boolean;
}

/** The case in force when a stretch began, if it is known. */
export type CaseBefore = (start_us: number) => Case | null;

/** Characters of a line, with their names by the case in force. */
export function lettersOf(line: readonly Edge[], until_us: number, before: CaseBefore): Letter[] {
  return named(charsInStep(line, until_us, { baud: BAUD }), before);
}

/** Characters read, named by the case in force. */
export function named(chars: readonly Pick<ReadChar, 'start_us' | 'code' | 'stopOk'>[], before: CaseBefore): Letter[] {
  const first = chars[0];
  let inForce = first ? before(first.start_us) : null;
  return chars
    .filter((c) => c.code !== 0 || c.stopOk)
    .map(({ start_us, code }) => {
      const name = isFunction(code) ? nameOf(code, 'letters') : nameOf(code, inForce ?? 'letters');
      inForce = printCode(code, { case: inForce }).state.case;
      return { start_us, code, name };
    });
}

/** The window at `now_us` on a line's letters; `start_us` asks for the letter that began then. */
export function windowOf(letters: readonly Letter[], now_us: number, start_us: number | null): Window {
  const begun = letters.filter((l) => l.start_us <= now_us);
  const last = begun[begun.length - 1];
  const asked = start_us === null ? undefined : begun.find((l) => Math.abs(l.start_us - start_us) < UNIT_US);
  const letter = asked ?? (start_us === null && last && now_us - last.start_us < STAYS_US ? last : null);
  const from_us = (letter?.start_us ?? now_us - AFTER_US + 3 * UNIT_US) - BEFORE_US;
  return { from_us, to_us: from_us + BEFORE_US + AFTER_US, now_us, letter, earlier: begun.map((l) => l.start_us) };
}

/** A line within a window. */
export function piecesOf(line: readonly Edge[], { from_us, to_us }: Window): Piece[] {
  const share = (t_us: number) => (t_us - from_us) / (to_us - from_us);
  const inside = line.filter((e) => e.t_us > from_us && e.t_us < to_us);
  const first = line[0];
  const pieces: Piece[] = [];
  let from = 0;
  let mark = levelAt(line, from_us, first ? !first.mark : true);
  for (const e of inside) {
    const to = share(e.t_us);
    pieces.push({ from, to, mark });
    from = to;
    mark = e.mark;
  }
  return [...pieces, { from, to: 1, mark }];
}

/** Share 0..1 of a window at an instant. */
export const shareOf = (w: Window, t_us: number): number => (t_us - w.from_us) / (w.to_us - w.from_us);

/** The middle of unit 1..5 of a letter, us. */
export const unitMiddle_us = (letter: Letter, unit: number): number => letter.start_us + (unit + 0.5) * UNIT_US;
