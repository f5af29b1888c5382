/** Where a box's controls sit: data, ours by hand, keyed by control and indicator id. Sheet units (1280 x 720). */
import type { Sight } from '../host.ts';
import type { Box } from '../kit/bounds.ts';
import type { SlabSpec } from '../props/slab.ts';
import type { Piece } from '../tiles.ts';

/** A place for one face. */
export interface Spot {
  /** Centre of a limpet, lamp, push, plunger, jack; hub of a lever; top left of sails, windows, drums, displays. */
  x: number;
  y: number;
  /** Radius, lever length, side, or width, whichever the face is measured by. */
  s: number;
  h?: number;
  /** Printed name; default the control's, '' for none. */
  label?: string;
  /** Baseline of the label under (y). */
  drop?: number;
  /** The present value in words, this far below the label. */
  value?: number;
  /** It stands on the track: the track is covered beneath it. */
  over?: boolean;
  /** Where it is touched; default what the face covers, at least 32 square. */
  hit?: Box;
  /** Where a touch only gives it the focus, beneath all that is touched there. */
  lap?: Box;
  /** Drawn by another face than the control's own; 'none' when another piece draws it. */
  as?: string;
  /** It is a button of paper with these words, not a drawn face. */
  text?: string;
  /** Printed before a window's value. */
  before?: string;
  /** Further options of the face. */
  more?: Record<string, unknown>;
}

/** One box, close up. */
export interface BoxLayout {
  /** None for what lies on the desk. */
  slab?: Omit<SlabSpec, 'name'> & { name?: string };
  /** The present value in the brow. */
  brow?: (sight: Sight) => string;
  /** In the order in which Tab meets them. */
  controls: Readonly<Record<string, Spot>>;
  indicators: Readonly<Record<string, Spot>>;
  /** Drawn before the controls (tracks), and after. */
  under?: readonly Piece[];
  extra?: readonly Piece[];
}
