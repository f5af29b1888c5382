/** The sounds of the shelter: each a recording of our own making under assets/sounds, its loudness and the words for it. */

/** One sound. `share` is its loudness, 0 to 1; `words` say it to those who do not hear it. */
export interface Cue {
  readonly share: number;
  readonly words: string;
}

/** Sounds that strike once. */
export const STRIKES = {
  lever: { share: 0.4, words: 'A lever clacks' },
  button: { share: 0.3, words: 'A plunger clicks' },
  detent: { share: 0.18, words: 'A knob ticks' },
  plug: { share: 0.35, words: 'A plug seats' },
  contact: { share: 0.25, words: 'A contact taps' },
  relay: { share: 0.45, words: 'The aerial relay clicks over' },
  breaker: { share: 0.8, words: 'A breaker trips' },
  hammer: { share: 0.35, words: 'The printer strikes' },
  function: { share: 0.2, words: 'The printer shifts' },
  carriage: { share: 0.4, words: 'The carriage runs back' },
  bell: { share: 0.5, words: 'The page bell rings' },
  keytop: { share: 0.25, words: 'A printer key goes down' },
  locked: { share: 0.45, words: 'A key beats against the lock' },
  tick: { share: 0.25, words: 'The tape reader ticks' },
  punch: { share: 0.35, words: 'The punch knocks' },
  paper: { share: 0.35, words: 'Paper tears' },
  starter: { share: 0.5, words: 'The starter only clicks' },
} as const satisfies Readonly<Record<string, Cue>>;

/** Sounds that go on. */
export const LOOPS = {
  hum: { share: 0.28, words: 'Inverter hums' },
  crank: { share: 0.6, words: 'The engine cranks' },
  engine: { share: 0.34, words: 'Engine runs' },
  vent: { share: 0.14, words: 'Vent fan blows' },
  fan: { share: 0.12, words: 'Sender fan blows' },
  motor: { share: 0.2, words: 'Printer motor turns' },
  whirr: { share: 0.25, words: 'Motors of the sender turn' },
} as const satisfies Readonly<Record<string, Cue>>;

export type Strike = keyof typeof STRIKES;
export type Loop = keyof typeof LOOPS;
/** Recordings: `vent` and `fan` share one. */
export const recordingOf = (cue: Strike | Loop): string => (cue === 'fan' ? 'vent' : cue);
