/** From a control and its place to its element. */
import type { Control } from '../../core/station/box.ts';
import { hitBox } from '../hits.ts';
import type { Box } from '../kit/bounds.ts';
import type { Spot } from '../layout/layout.ts';
import { drumBoxes } from '../mounts.ts';
import type { Hand, Handle } from './control.ts';
import { drums } from './drums.ts';
import { keys } from './keys.ts';
import { positionsOf } from './positions.ts';
import { press, toggle } from './press.ts';
import { turn } from './turn.ts';

/** A control over its face. Writing controls are not placed on faces: see writing.ts. */
export function makeControl(
  hand: Hand,
  full: string,
  control: Control,
  spot: Spot,
  refresh: () => void,
): Handle | null {
  const made = { hand, full, control, box: hitBox(control, spot), positions: positionsOf(control, spot) };
  const draft = (text: string | null) => {
    if (text) hand.sight.drafts.set(full, text);
    else hand.sight.drafts.delete(full);
    refresh();
  };
  switch (control.face) {
    case 'drums':
      return drums(made, drumBoxes(spot).map(drumHit), draft);
    case 'keyboard':
      return keys(made, { x: spot.x, y: spot.y, w: spot.s, row: spot.h ?? 36 }, spot.lap, draft);
    case 'writing':
      return null;
    case 'caged':
      return press(made, () => liftCage(hand, full));
    default:
      break;
  }
  if (control.range.kind === 'press') return spot.text ? paper(press(made), spot.text) : press(made);
  return control.range.kind === 'switch' ? toggle(made) : turn(made);
}

/** A button that is seen: paper with words. */
function paper(handle: Handle, text: string): Handle {
  handle.el.className = 'tile';
  handle.el.textContent = text;
  return handle;
}

const drumHit = ({ x, y, w, h }: { x: number; y: number; w: number; h: number }): Box => ({
  left: x - 1,
  top: y - 4,
  right: x + w + 9,
  bottom: y + h + 4,
});

function liftCage(hand: Hand, full: string): boolean {
  const cage = `${full.slice(0, full.indexOf('.'))}.cage`;
  if (hand.sight.standing(cage) !== false) return false;
  const near = document.activeElement as HTMLElement;
  hand.act(cage, true, near, performance.now());
  return true;
}
