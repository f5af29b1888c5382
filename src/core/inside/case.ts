/** Letters or figures: the case in which a printer stood when a stretch of line began, from what the record says it printed. */
import type { PrinterState } from '../station/boxes/printer.ts';
import { type Case, FIGS, faceOf, isFunction, LTRS } from '../telegraphy/ita2.ts';
import type { Scene } from './scene.ts';

/**
 * A letter is in the record at most 130 ms after the next one began (the far reader's blocks, 100 ms, and its filters), and
 * that next one no sooner than 135 ms after: up to here all before it is told. If it itself is told too, it does no harm: a
 * shift is taken again, anything else shifts nothing.
 */
const TOLD_US = 200_000;
/** Under a fifth of its speed a printer reads nothing. */
const TURNS = 0.2;

/** Case in which the printer `at` (`own` or a call sign) was at `t_us`; null when it is not known. */
export function caseAt({ record: { lines } }: Scene, at: string, t_us: number): Case | null {
  for (let i = lines.length - 1; i >= 0; i--) {
    const line = lines[i]!;
    if (line.t > t_us + TOLD_US) continue;
    // A distant operator who begins to copy does not know the case.
    if (line.k === 'far' && line.station === at && line.what === 'copying') return null;
    if (line.k !== 'print' || line.at !== at) continue;
    const { code, c } = line;
    if (code === LTRS) return 'letters';
    if (code === FIGS) return 'figures';
    // Without paper nothing is told of the character.
    if (isFunction(code) || c === '') continue;
    return c === faceOf(code, 'letters') ? 'letters' : 'figures';
  }
  return null;
}

/** Is the own printer turning, so that the record tells what its loop carries? */
export const isTurning = ({ station }: Scene): boolean => (station.boxes['printer'] as PrinterState).speed > TURNS;

/** Does the own printer print what comes in? */
export const printsIncoming = (scene: Scene): boolean =>
  isTurning(scene) && scene.station.wires.lever === 'IN' && scene.station.wires.source === 'line';
