/** What the parts of a place are laid in. */

import type { Boxed } from '../boxes.ts';
import type { Hand } from '../controls/control.ts';
import type { PanelHost, Sight } from '../host.ts';
import type { Box } from '../kit/bounds.ts';

/** A layer that takes elements at boxes of its design and lets them follow the drill. */
export interface Bed {
  readonly hand: Hand;
  readonly host: PanelHost;
  readonly boxes: readonly Boxed[];
  at<E extends HTMLElement>(node: E, where: Box): E;
  follow(update: (sight: Sight) => void): void;
}

/** A box by its edges. */
export const box = (left: number, top: number, right: number, bottom: number): Box => ({ left, top, right, bottom });
