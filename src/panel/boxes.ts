/** A box from its data and its layout: slab, tracks, faces. */
import type { Box as StationBox } from '../core/station/box.ts';
import type { BoxLayout, Spot } from './layout/layout.ts';
import { mountControl } from './mounts.ts';
import { type SlabSpec, slabOps, slabValue } from './props/slab.ts';
import { mountIndicator } from './shows.ts';
import { live, type Piece, scenery } from './tiles.ts';

/** A box as the panel needs it: its data. */
export type Boxed = Pick<StationBox, 'id' | 'name' | 'bay' | 'about' | 'controls' | 'indicators'>;

/** Everything of a box that is drawn, in order. */
export function boxPieces(box: Boxed, layout: BoxLayout): Piece[] {
  const slab = layout.slab ? slabPieces(box, layout) : [];
  const controls = spots(layout.controls).flatMap(([id, spot]) => {
    const control = box.controls.find((c) => c.id === id);
    return control ? mountControl(`${box.id}.${id}`, control, spot) : [];
  });
  const indicators = spots(layout.indicators).flatMap(([id, spot]) => {
    const indicator = box.indicators.find((i) => i.id === id);
    return indicator ? mountIndicator(`${box.id}.${id}`, indicator as never, spot) : [];
  });
  return [...slab, ...(layout.under ?? []), ...indicators, ...controls, ...(layout.extra ?? [])];
}

const spots = (of: Readonly<Record<string, Spot>>): [string, Spot][] => Object.entries(of);

function slabPieces(box: Boxed, { slab, brow }: BoxLayout): Piece[] {
  const spec: SlabSpec = { name: box.name, ...slab! };
  const fixed = scenery(box.id, slabOps(spec));
  if (!brow) return [fixed];
  const { x, y, w } = spec;
  const bounds = { left: x + w * 0.42, top: y + 4, right: x + w - 4, bottom: y + (spec.brow ?? 28) - 2 };
  return [fixed, live(`${box.id}/brow`, bounds, brow, (text) => slabValue(spec, text))];
}
