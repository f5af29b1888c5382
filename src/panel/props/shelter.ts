import { CAPITAL, textWidth } from '../kit/metrics.ts';
import { FINE, HAIR, LINE, line, type Op, shape, solid, within, words } from '../kit/ops.ts';
import { circle, corners, poly, rect, rrect, seg, spread, ticks } from '../kit/path.ts';

/** The section through the shelter, in the sheet's own units (1280 x 720): the cut is solid, walls are boarded. */
export const SECTION = {
  left: 24,
  right: 1000,
  top: 98,
  ceiling: 126,
  bench: 436,
  under: 447,
  floor: 500,
  keel: 514,
  /** Where the walls between the bays stand (left edge; 5 wide). */
  walls: [240, 578] as readonly number[],
  wallIn: 36,
  wallOut: 988,
  /** The hatch: its lintel and its sill. */
  lintel: 158,
  sill: 318,
} as const;

/** Faint boards of a wall or of the bench. */
export function boards(x: number, y: number, w: number, h: number, pitch = 17): Op {
  let d = '';
  for (let dy = pitch * 0.6; dy < h; dy += pitch) d += seg(x, y + dy, x + w, y + dy);
  return line(d, FINE, 'g3', { cap: 'butt', snap: true, o: 0.55 });
}

/** A number tab and a name on the dark beam. */
export function beamTab(x: number, baseline: number, key: string, name: string): Op[] {
  return [
    solid(rrect(x, baseline - 15, 20, 19, 3), 'onCut', { snap: true }),
    words(key, x + 10, baseline, { bold: true, anchor: 'middle', fill: 'cut' }),
    words(name, x + 28, baseline, { bold: true, size: 16, fill: 'onCut' }),
  ];
}

/** A dark tab standing by itself (outside, desk). Returns its width with the ops. */
export function plateTab(x: number, y: number, key: string, name: string): { ops: Op[]; w: number } {
  const w = 38 + textWidth(name, 16) + 12;
  return { w, ops: [solid(rrect(x, y, w, 22, 4), 'cut', { snap: true }), ...beamTab(x + 6, y + 17, key, name)] };
}

/** The bar of tabs in the close views; the chosen one is a paper tab. */
export function tabBar(tabs: readonly { key: string; name: string }[], chosen: number, y = 91): Op[] {
  const h = 27;
  const base = y + h / 2 + (CAPITAL * 16) / 2;
  let x = 24;
  const out: Op[] = [solid(rect(0, y, 1280, h), 'cut', { snap: true })];
  tabs.forEach(({ key, name }, i) => {
    const on = i === chosen;
    const w = textWidth(name, 16);
    if (on) out.push(solid(corners(x - 7, y + 3, w + 43, h - 3, [5, 5, 0, 0]), 'g1', { snap: true }));
    const cap = rrect(x, base - 15, 19, 18, 3);
    out.push(on ? solid(cap, 'cut', { snap: true }) : line(cap, FINE, 'onCut', { snap: true }));
    out.push(words(key, x + 9.5, base - 1, { bold: on, anchor: 'middle', fill: 'onCut' }));
    out.push(words(name, x + 27, base, { size: 16, bold: on, fill: on ? 'ink' : 'onCut' }));
    x += w + 62;
  });
  return out;
}

/** The tyre that shows between keel and desk; cx, cy its middle. */
export function wheelArc(cx: number, cy: number, r: number, below: number): Op[] {
  return within({ clip: rect(cx - r - 4, cy - r - 4, 2 * r + 8, below - cy + r + 4) }, [
    shape(circle(cx, cy, r), 'sheet', 4.5),
    line(ticks(cx, cy, r * 0.84, r, spread(-88, 88, 45)), FINE, 'ink', { cap: 'butt' }),
    line(circle(cx, cy, r * 0.82), FINE + 0.2),
  ]);
}

function cutParts(): Op[] {
  const s = SECTION;
  const roof = poly(
    [
      [s.left, s.ceiling],
      [s.left, s.top + 16],
      [s.left + 16, s.top],
      [s.right - 16, s.top],
      [s.right, s.top + 16],
      [s.right, s.ceiling],
    ],
    true,
  );
  const parts = [
    rect(s.left, s.ceiling - 1, s.wallIn - s.left, s.keel - s.ceiling + 1),
    ...s.walls.map((x) => rect(x, s.ceiling - 1, 5, s.floor - s.ceiling + 2)),
    rect(s.wallOut, s.ceiling - 1, s.right - s.wallOut, s.lintel - s.ceiling + 1),
    rect(s.wallOut, s.sill, s.right - s.wallOut, s.keel - s.sill),
    rect(s.wallIn - 1, s.bench, s.wallOut - s.wallIn + 2, s.under - s.bench),
    rect(s.left, s.floor, s.right - s.left, s.keel - s.floor),
    rect(s.wallOut - 4, s.sill - 2, 32, 4.5),
  ];
  return [roof, ...parts].map((d) => solid(d, 'cut', { snap: true }));
}

/** The flap of the hatch, propped open. */
function flap(): Op[] {
  const { wallOut, lintel } = SECTION;
  const [hx, hy] = [wallOut + 8, lintel];
  return [
    line(seg(hx + 55, hy - 11, hx + 5, hy + 37), LINE + 0.4),
    line(seg(hx + 4, hy - 1, hx + 78, hy - 21), 7, 'cut', { cap: 'butt' }),
    line(seg(hx - 10, hy + 1, hx, hy + 1), 3, 'cut', { cap: 'butt' }),
    shape(circle(hx, hy, 5), 'sheet', LINE),
  ];
}

/** Section, keel, wheels and tabs on the beam. Boxes, scenery under the bench and the outside are placed over it. */
export function shelterOps(tabs: readonly { key: string; name: string }[]): Op[] {
  const s = SECTION;
  const inside = s.wallOut - s.wallIn;
  const starts = [s.wallIn + 10, ...s.walls.map((x) => x + 16)];
  return [
    ...wheelArc(164, 580, 59, 552),
    ...wheelArc(834, 580, 59, 552),
    solid(rect(60, s.keel + 1, 904, 6.5), 'cut', { snap: true }),
    line(seg(60, s.keel + 0.5, 964, s.keel + 0.5), FINE, 'sheet', { cap: 'butt', snap: true }),
    shape(rrect(250, s.keel + 4, 60, 20, 3), 'sheet', LINE, 'ink', { snap: true }),
    shape(rrect(600, s.keel + 4, 90, 16, 3), 'sheet', LINE, 'ink', { snap: true }),
    solid(rect(s.wallIn, s.ceiling, inside + 6, s.floor - s.ceiling), 'g1', { snap: true }),
    boards(s.wallIn, s.ceiling, inside, s.bench - s.ceiling),
    boards(s.wallIn, s.under, inside, s.floor - s.under),
    ...cutParts(),
    ...flap(),
    ...tabs.flatMap(({ key, name }, i) => beamTab(starts[i] ?? s.wallIn, s.top + 20, key, name)),
  ];
}

/** The desk in plan: a boarded top with its tab. */
export function deskOps(key: string, name: string): Op[] {
  const tab = plateTab(36, 543, key, name);
  const d = rrect(24, 552, 1232, 122, 9);
  return [
    solid(rrect(28, 556, 1234, 124, 9), 'shade'),
    solid(d, 'g1', { snap: true }),
    ...within({ clip: d }, [
      line([0, 1, 2, 3, 4, 5, 6].map((i) => seg(24, 571 + i * 18.3, 1256, 567 + i * 18.3)).join(''), HAIR, 'ink', {
        o: 0.35,
      }),
    ]),
    line(d, 2.4, 'ink', { snap: true }),
    ...tab.ops,
  ];
}
