import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { arc, at, circle, curve, num, poly, rect, rrect, seg, spread, ticks } from '../kit/path.ts';
import { gull } from './marram.ts';

/** The station's vehicle, drawn in its picture's own units (see picture.ts): it stands on y = 399. Ours: a wheelhouse cab, a shelter, three axles. */

const WHEELS = [123, 330, 410] as const;
const AXLE = 365;

/** A wheel arch rises over the shelter's skirt. */
const arch = (cx: number): string => `${arc(cx, 354, 40, -90, 90)}Z`;

function wheel(cx: number): Op[] {
  const r = 34;
  const bolts = spread(0, 300, 6)
    .map((a) => circle(...at(cx, AXLE, 10, a), 1.1))
    .join('');
  return [
    solid(circle(cx, AXLE, r), 'cut'),
    line(circle(cx, AXLE, r + 0.6), FINE, 'sheet'),
    line(
      spread(0, 350, 36)
        .map((a) => poly([at(cx, AXLE, r - 5, a), at(cx, AXLE, r - 0.6, a + 4)]))
        .join(''),
      FINE,
      'onCut',
    ),
    shape(circle(cx, AXLE, 16), 'sheet', LINE),
    line(circle(cx, AXLE, 13), FINE),
    solid(bolts, 'ink'),
    shape(circle(cx, AXLE, 6.2), 'sheet', FINE),
    solid(circle(cx, AXLE, 4), 'ink'),
  ];
}

/** A porthole with a lamp burning behind it. */
function porthole(cx: number, cy: number, r: number): Op[] {
  const k = r / 18;
  const shade = `M${num(cx - 8 * k)} ${num(cy + 1 * k)}C${num(cx - 6 * k)} ${num(cy - 5 * k)} ${num(cx + 6 * k)} ${num(cy - 5 * k)} ${num(cx + 8 * k)} ${num(cy + 1 * k)}Z`;
  return [
    shape(circle(cx, cy, r), 'sheet', LINE),
    solid(circle(cx, cy, r * 0.81), 'cut'),
    line(seg(cx, cy - 10 * k, cx, cy - 3 * k), FINE, 'onCut', { cap: 'butt' }),
    solid(shade, 'onCut'),
    line(ticks(cx, cy - 1 * k, 4.5 * k, 9.5 * k, [180 - 42, 180 - 15, 180 + 15, 180 + 42]), FINE, 'onCut'),
  ];
}

function cab(): Op[] {
  const body = 'M61 221L75 279L64 290L64 302L78 311L78 348L162 348L162 219L64 219Z';
  const glass = 'M70.5 230.5L116 230.5L116 276L82 276Z';
  return [
    shape(rrect(50.5, 238, 7.5, 15.5, 2), 'sheet', LINE),
    line('M54 253.5L54 258L75 255', FINE + 0.2),
    shape(body, 'sheet', EDGE + 0.4),
    shape(glass, 'sheet', LINE),
    solid(glass, 'hatch'),
    shape(rect(125.5, 230.5, 30, 45.5), 'sheet', FINE + 0.2),
    line('M125.5 225L125.5 318M76 280L125 280', FINE),
    line(seg(136, 293, 147, 293), 4, 'ink'),
    shape(circle(83, 300, 6.8), 'sheet', LINE),
    solid(circle(83, 300, 2.3), 'ink'),
    solid('M53 221L65 211.5L161 211.5L163.5 221Z', 'cut'),
    line(seg(62, 341, 86, 341), 5, 'cut', { cap: 'round' }),
  ];
}

function roofGear(): Op[] {
  const vent = (x: number): Op[] => [
    shape(rect(x - 6, 182, 12, 12), 'sheet', LINE),
    shape(rect(x - 12, 176, 24, 7.5), 'sheet', LINE),
  ];
  return [...vent(228), ...vent(380), solid('M167 213L185 193L440 193L458 213Z', 'cut')];
}

/** The whip's spare sections, lashed to the side. */
function lashed(): Op[] {
  const tubes = [
    [239, 443, 221],
    [239, 430, 228],
    [239, 417, 235],
  ] as const;
  return [
    ...tubes.map(([a, b, y]) => shape(rrect(a, y, b - a, 4.6, 2.2), 'sheet', FINE + 0.2)),
    solid([257, 321, 390].map((x) => rrect(x, 218, 4.5, 24.5, 1.5)).join(''), 'cut'),
  ];
}

function shelter(name: string): Op[] {
  const seams = [232, 297, 361, 424].map((x) => seg(x, 214, x, 340)).join('');
  return [
    shape(rect(168, 210, 289, 132), 'sheet', EDGE + 0.4),
    line(seams, HAIR, 'ink', { o: 0.75 }),
    line('M169 318.5L456 318.5M169 322.5L456 322.5M169 327.5L456 327.5', FINE, 'ink', { o: 0.85 }),
    shape(rrect(181, 223, 43, 114, 5), 'sheet', LINE),
    ...porthole(202, 248, 14.5),
    solid(circle(215, 284, 3), 'ink'),
    ...lashed(),
    words(name, 233, 270, { bold: true, size: 16 }),
    ...gull(262, 292, 28),
    ...porthole(338, 274, 18),
    ...porthole(393, 274, 18),
    line(seg(435, 310, 435, 322), LINE),
    shape(circle(435, 295, 16), 'sheet', LINE),
    line(circle(435, 295, 12) + circle(435, 295, 8), FINE),
    solid(circle(435, 295, 3.2), 'ink'),
    ...roofGear(),
  ];
}

function hatchFlap(): Op[] {
  return [
    line(seg(457, 252, 483, 226), FINE + 0.3),
    line(seg(459, 230, 496, 220), 5.2, 'cut'),
    shape(circle(456, 231, 4), 'sheet', LINE),
  ];
}

function chassis(): Op[] {
  const ladder = 'M186 342L186 386M219 342L219 386M186 354L219 354M186 367L219 367M186 380L219 380';
  return [
    line(ladder, EDGE),
    shape(rrect(222, 354, 67, 23, 3), 'sheet', LINE),
    line(seg(222, 366, 289, 366), HAIR),
    line('M362 356L378 364M476 350L457 344', FINE + 0.3),
    line(seg(457, 351, 509, 351), 5, 'cut', { cap: 'butt' }),
    line(seg(478.5, 353, 478.5, 406), LINE + 0.3),
  ];
}

/** Whip, its foot, guard and stays. */
function whip(): Op[] {
  const [fx, fy, tx, ty] = [508.5, 326, 520, 28.5];
  const along = (t: number): [number, number] => [fx + (tx - fx) * t, fy + (ty - fy) * t];
  const joint = (t: number): Op => {
    const [x, y] = along(t);
    return shape(rrect(x - 3.6, y - 4.4, 7.2, 8.8, 1.4), 'sheet', LINE);
  };
  const rings = [329, 336, 343].map((y) => rrect(502.5, y, 12.5, 5.2, 2.6)).join('');
  const stays = [
    curve([509, 353], [522, 368], [536, 386], [549, 402]),
    curve([509, 353], [540, 366], [566, 380], [588, 394]),
    curve([509, 353], [496, 372], [484, 388], [470, 400]),
  ].join('');
  const guard =
    curve([498, 318], [490, 322], [489, 340], [490, 353]) + curve([518, 318], [527, 322], [527, 340], [526, 353]);
  return [
    line(stays, FINE),
    line(seg(fx, fy, tx, ty), 8, 'sheet'),
    line(seg(fx, fy, ...along(0.37)), 4.6),
    line(seg(...along(0.37), ...along(0.7)), 3.8),
    line(seg(...along(0.7), tx, ty), 2.8),
    solid(circle(tx, ty, 2.6), 'ink'),
    joint(0.37),
    joint(0.7),
    shape(rings, 'sheet', FINE + 0.2),
    line(`${guard}${curve([498, 318], [502, 314], [514, 314], [518, 318])}`, FINE),
    solid(rrect(500, 349, 17, 6, 1.5), 'cut'),
  ];
}

/** The whole vehicle with its name on the side. */
export const vehicleOps = (name: string): Op[] => [
  ...hatchFlap(),
  ...chassis(),
  ...shelter(name),
  ...cab(),
  solid(rect(74, 344.5, 391, 9.5), 'cut'),
  solid(WHEELS.map(arch).join(''), 'cut'),
  ...WHEELS.flatMap(wheel),
  ...whip(),
];
