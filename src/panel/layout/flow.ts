/**
 * A box without a layout by hand, and every box on a phone: readings in rows first, then the controls in the order of the
 * box, each as large as a finger wants it, all between the same two edges.
 */
import type { Control, Indicator } from '../../core/station/box.ts';
import type { Boxed } from '../boxes.ts';
import type { Piece } from '../tiles.ts';
import { capital } from '../words.ts';
import { type AnyReader, tapeReader } from './flow-tape.ts';
import type { BoxLayout, Spot } from './layout.ts';

/** What one thing needs, and its spot once it has a corner. */
type Cell = { w: number; h: number; spot(x: number, y: number): Spot };

const BROW = 28;
const PAD = 10;

const centred = (w: number, h: number, s: number, up: number, more: Partial<Spot> = {}): Cell => ({
  w,
  h,
  spot: (x, y) => ({ x: x + w / 2, y: y + up, s, ...more }),
});
const cornered = (w: number, h: number, s: number, down: number, more: Partial<Spot> = {}): Cell => ({
  w,
  h,
  spot: (x, y) => ({ x: x + (w - s) / 2, y: y + down, s, ...more }),
});

/** Words round a limpet need room at both sides. */
function limpetCell(c: Control, third: number, half: number): Cell {
  if (c.range.kind !== 'words') return centred(third, 150, 32, 60, { drop: 60, value: 18, more: { marks: 11 } });
  const many = c.range.words.length > 6;
  const more = many ? { ring: true, from: -154, to: 154 } : { ring: true, from: -105, to: 105 };
  const isLong = c.range.words.some((w) => w.length > 5);
  // Bare numbers round a ring: what they are of stands below.
  const [h, value] = c.range.unit ? [182, { value: 18 }] : [164, {}];
  return centred(isLong ? half * 1.4 : half, h, many ? 34 : 26, 78, { drop: 74, ...value, more });
}

function controlCell(c: Control, third: number, half: number, full: number): Cell | null {
  switch (c.face) {
    case 'tiller':
      return centred(half, 146, 50, 92, { drop: 40 });
    case 'limpet':
      return limpetCell(c, third, half);
    case 'pins':
      return { w: 240, h: 182, spot: (x, y) => ({ x: x + 12, y: y + 10, s: 36, h: 48, drop: 160 }) };
    case 'fine':
      return centred(third, 150, 32, 60, { drop: 60, value: 18, more: { marks: 11 } });
    case 'plunger':
      return centred(third, 118, 36, 56, { drop: 34 });
    case 'push':
      return centred(third, 92, 46, 34);
    case 'caged':
      return centred(third, 132, 28, 66, { drop: 52 });
    case 'jack':
      return centred(third, 112, 18, 54);
    case 'key':
      return { w: third, h: 150, spot: (x, y) => ({ x: x + third / 2 - 30, y: y + 8, s: 98 }) };
    case 'microphone':
      return { w: third, h: 176, spot: (x, y) => ({ x: x + third / 2, y: y + 16, s: 96 }) };
    case 'drums': {
      const [w, h] = [Math.min(38, full / 10), 64];
      return { w: full, h: h + 48, spot: (x, y) => ({ x: x + 6, y: y + 34, s: w, h }) };
    }
    case 'keyboard':
      return { w: full, h: 4 * 46 + 14, spot: (x, y) => ({ x, y: y + 6, s: full, h: 46 }) };
    default:
      return null;
  }
}

function indicatorCell(i: Indicator<never>, third: number, half: number, full: number): Cell | null {
  switch (i.face) {
    case 'sail':
      return cornered(third, 146, Math.min(104, third - 16), 10);
    case 'lamp':
      return centred(third, 66, 10, 22);
    case 'window':
    case 'caption':
      return cornered(half, 66, half - 14, 30, { h: 28, as: 'window' });
    case 'reeds':
      return cornered(half, 116, half - 24, 14);
    case 'blades':
      return cornered(Math.max(third, 118), 160, 112, 8, { h: 120, more: { names: ['mark', 'space'] } });
    case 'scale':
      return { w: full, h: 100, spot: (x, y) => ({ x: x + 2, y: y + 14, s: full - 4, h: 46, more: { span: 30 } }) };
    default:
      return null;
  }
}

/** Rows of cells from left to right, each row spread over the width; where each begins, and the height of all. */
function rows<T extends Cell>(cells: readonly T[], w: number): { at: [number, number][]; h: number } {
  const at: [number, number][] = [];
  let y = 0;
  for (let from = 0; from < cells.length; ) {
    let to = from;
    let taken = 0;
    while (to < cells.length && (to === from || taken + cells[to]!.w <= w + 0.5)) taken += cells[to++]!.w;
    const row = cells.slice(from, to);
    const gap = Math.max(0, w - taken) / row.length;
    const h = Math.max(...row.map((c) => c.h));
    let x = gap / 2;
    // Feet in one line: there the names stand.
    for (const cell of row) {
      at.push([x, y + h - cell.h]);
      x += cell.w + gap;
    }
    y += h;
    from = to;
  }
  return { at, h: y };
}

/** Long readings get a row of their own. */
const LONG = new Set(['tripped', 'fuses', 'rackList', 'orderText', 'saying']);

/** Lays a box out between two edges from `y` down, its controls under its readings or `beside` them; `bottom` is where the next may begin. */
export function flow(
  box: Boxed,
  x: number,
  y: number,
  width: number,
  beside = false,
): { layout: BoxLayout; bottom: number } {
  const full = beside ? (width - 3 * PAD) / 2 : width - 2 * PAD;
  const columns = Math.max(3, Math.floor(full / 118));
  const third = full / columns;
  const half = full / Math.max(2, Math.floor(full / 170));
  const controls: Record<string, Spot> = {};
  const indicators: Record<string, Spot> = {};
  const extra: Piece[] = [];
  let top = y + BROW + 8;
  let left = x + PAD;
  const put = (
    into: Record<string, Spot>,
    named: readonly { id: string; name: string; cell: Cell; label?: string }[],
  ) => {
    const { at, h } = rows(
      named.map((n) => n.cell),
      full,
    );
    named.forEach(({ id, cell, label }, i) => {
      const [dx, dy] = at[i]!;
      into[id] = { label, ...cell.spot(left + dx, top + dy) } as Spot;
    });
    top += h;
  };
  const seen = box.indicators.flatMap((i) => {
    const cell = indicatorCell(i as Indicator<never>, third, LONG.has(i.id) ? full : half, full);
    // Reeds have no room for a unit among their numbers.
    const unit = i.face === 'reeds' && i.unit ? `, ${i.unit}` : '';
    return cell ? [{ id: i.id, name: i.name, cell, label: capital(short(i.name)) + unit }] : [];
  });
  put(
    indicators,
    seen.filter((s) => !skips(box.id, s.id)),
  );
  for (const tape of box.indicators.filter((i) => i.face === 'tape')) {
    const made: AnyReader = tapeReader(`${box.id}.${tape.id}`, tape.name, x + PAD, top + 22, full);
    extra.push(...made.pieces);
    top += made.h;
  }
  const handled = box.controls.flatMap((c) => {
    const cell = controlCell(c, third, half, full);
    return cell
      ? [{ id: c.id, name: c.name, cell, label: capital(c.name === box.name ? 'power' : short(c.name)) }]
      : [];
  });
  const readTo = top;
  if (beside) [left, top] = [left + full + PAD, y + BROW + 8];
  put(controls, handled);
  const h = Math.max(top, readTo) - y + 10;
  return {
    layout: { slab: { x, y, w: width, h, hooks: [], clip: 'left' }, controls, indicators, extra },
    bottom: y + h,
  };
}

/** Names that stand in narrow columns. */
const short = (name: string): string =>
  name
    .replace(/^breaker /, '')
    .replace('fuse of inverter', 'fuse')
    .replace(' of the test carrier', '')
    .replace('battery amperes, plus is charge', 'battery, + charge')
    .replace('distance of the second whip', 'distance');

/** Papers and strips over the boxes say these themselves. */
const SAID = new Set(['desk.orderText', 'hand.heard']);
const skips = (box: string, id: string): boolean => SAID.has(`${box}.${id}`);
