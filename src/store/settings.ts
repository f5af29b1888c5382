/** What the trainee chose once and should not have to choose again. */
import { MANNERS, type Manner } from '../core/record/record.ts';
import type { Shelf } from './shelf.ts';

/** The three editions of the inks. */
export const THEMES = ['paper', 'night', 'contrast'] as const;
/** How many times longer than stated the operator's time limits may be. */
export const STRETCHES = [1, 1.5, 2] as const;

/** All settings. */
export type Settings = {
  theme: (typeof THEMES)[number];
  stretch: (typeof STRETCHES)[number];
  manner: Manner;
  sound: boolean;
  /** Whether plain letters and figures are shortcuts on pages without text entry. */
  letters: boolean;
  /** Shortcuts of the shelter that were put on another key: from the usual key to the chosen one, as keyboards name them. */
  keys: Record<string, string>;
};

const KEY = 'keydown/settings';
const USUAL: Settings = {
  theme: 'paper',
  stretch: 1,
  manner: 'prompted',
  sound: true,
  letters: true,
  keys: {},
};

const isKey = (x: unknown): boolean => typeof x === 'string' && /^(Key[A-Z]|Digit\d)$/.test(x);

function keysIn(kept: unknown): Record<string, string> {
  if (typeof kept !== 'object' || kept === null) return {};
  return Object.fromEntries(Object.entries(kept).filter(([from, to]) => isKey(from) && isKey(to)));
}

/** Settings as kept; whatever cannot be read is as usual. */
export function readSettings(shelf: Shelf): Settings {
  let kept: { [key: string]: unknown } = {};
  try {
    const made: unknown = JSON.parse(shelf.getItem(KEY) ?? '{}');
    if (typeof made === 'object' && made !== null) kept = made as typeof kept;
  } catch {
    return { ...USUAL };
  }
  const one = <T>(of: readonly T[], x: unknown, usual: T): T => of.find((each) => each === x) ?? usual;
  return {
    theme: one(THEMES, kept['theme'], USUAL.theme),
    stretch: one(STRETCHES, kept['stretch'], USUAL.stretch),
    manner: one(MANNERS, kept['manner'], USUAL.manner),
    sound: kept['sound'] !== false,
    letters: kept['letters'] !== false,
    keys: keysIn(kept['keys']),
  };
}

/** Keeps settings; a shelf that is full keeps the old ones. */
export function keepSettings(shelf: Shelf, settings: Settings): void {
  try {
    shelf.setItem(KEY, JSON.stringify(settings));
  } catch {
    // A setting that cannot be kept is chosen again next time.
  }
}
