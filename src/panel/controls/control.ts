/** What every control of the layer is given and gives. */
import type { ControlValue, Json } from '../../core/signals.ts';
import type { Control } from '../../core/station/box.ts';
import type { Sight } from '../host.ts';
import type { Box } from '../kit/bounds.ts';
import { capital } from '../words.ts';
import type { Design } from './dom.ts';
import type { Positions } from './positions.ts';

/** The hand of the layer: every act goes through it. */
export interface Hand {
  readonly sight: Sight;
  /** The sheet of the place that stands: boxes are measured in it. */
  design: Design;
  /** Acts; says at `near` why not, when it cannot be done. True when done. */
  act(control: string, value: ControlValue, near: HTMLElement, stamp_ms?: number): boolean;
  /** Words beside an element: something did not go. */
  say(near: HTMLElement, text: string): void;
}

/** A control in the layer. */
export interface Handle {
  el: HTMLElement;
  /** What else of the drawing is touched for it, such as printed names that set it: laid beneath all controls. */
  names?: readonly HTMLElement[];
  /** Follows the drill. */
  update(): void;
}

/** What a maker of controls is told. */
export type Made = { hand: Hand; full: string; control: Control; box: Box; positions: Positions | null };

/** The accessible name. */
export const nameOf = (name: string): string => capital(name);

/** Value of a control as it stands. */
export const standing = ({ hand, full }: Made): ControlValue | undefined => hand.sight.standing(full);

export type { Json };
