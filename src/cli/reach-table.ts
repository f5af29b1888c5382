/** `reach` for people: hours against frequencies, the chance of print in percent. */
import { type Circuit, eastOf, ladder_MHz, oneGround, type ReachChart, reachChart } from '../core/physics/circuit.ts';
import { type GroundName, grounds } from '../core/physics/ground-wave/ground.ts';
import { type Environment, environments } from '../core/physics/noise/noise.ts';
import { distance_km } from '../core/physics/sky-wave/geometry.ts';
import { type Bounds, boundsText, numberOf, Plain, USAGE, wordOf } from './verb.ts';

/** Where a table starts when no place is told: the theatre of the trainer's own coast. */
const HERE = '52,10';
const FREQUENCIES = ladder_MHz(1.8, 17, 14);
const PLACE = 'latitude and longitude, as 52,10';
const GROUNDS = Object.keys(grounds) as GroundName[];
/** Bounds of the numbers; the farthest is half round the Earth. */
const NUMBERS = {
  km: { min: 0.1, max: 20_000 },
  month: { min: 1, max: 12, whole: true },
  R12: { min: 0, max: 311, whole: true },
  power: { min: 0.001, max: 1_000_000 },
} as const satisfies Record<string, Bounds>;
const USUAL = { from: HERE, ground: 'average', month: '6', R12: '60', noise: 'rural', power: '120' };

/** Flags of the table, all of them texts. */
export const TABLE_FLAGS = ['to', 'km', 'from', 'ground', 'month', 'R12', 'noise', 'power'] as const;
/** What was given of them. */
export type Values = { readonly [K in (typeof TABLE_FLAGS)[number]]?: string };

/** What each flag takes, a line each. */
export const TABLE_HELP = [
  `  --to PLACE      the other end: ${PLACE}`,
  `  --km KM         or how far east it is: ${boundsText(NUMBERS.km)}`,
  `  --from PLACE    this end: ${PLACE} (usually ${USUAL.from})`,
  `  --ground G      one of ${GROUNDS.join(', ')} (usually ${USUAL.ground})`,
  `  --month M       ${boundsText(NUMBERS.month)} (usually ${USUAL.month})`,
  `  --R12 R         smoothed sunspot number: ${boundsText(NUMBERS.R12)} (usually ${USUAL.R12})`,
  `  --noise N       man-made noise, one of ${environments.join(', ')} (usually ${USUAL.noise})`,
  `  --power W       into the whip, watts: ${boundsText(NUMBERS.power)} (usually ${USUAL.power})`,
];

function placeOf(flag: 'from' | 'to', text: string): [number, number] {
  const parts = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  const [lat, lng] = parts;
  if (parts.length !== 2 || !(Math.abs(lat!) <= 90) || !(Math.abs(lng!) <= 180))
    throw new Plain(`--${flag} takes ${PLACE}, got ${JSON.stringify(text)}`, USAGE);
  return [lat!, lng!];
}

const number = (v: Values & typeof USUAL, flag: keyof typeof NUMBERS): number =>
  numberOf(flag, String(v[flag]), NUMBERS[flag]);

function endsOf(v: Values & typeof USUAL): { from: [number, number]; to: [number, number]; km: number } {
  const from = placeOf('from', v.from);
  if (v.to === undefined) {
    const km = number(v, 'km');
    return { from, to: eastOf(from, km), km };
  }
  const to = placeOf('to', v.to);
  return { from, to, km: distance_km({ lat: from[0], lng: from[1] }, { lat: to[0], lng: to[1] }) };
}

/** The circuit that the flags ask for; a plain usage error for what they cannot mean. */
export function circuitOf(given: Values): Circuit & { km: number; groundName: GroundName } {
  const v = { ...USUAL, ...given };
  const groundName = wordOf('ground', v.ground, GROUNDS);
  const { from, to, km } = endsOf(v);
  // A longitude past the date line comes round again.
  const lng = to[1] > 180 ? to[1] - 360 : to[1];
  return {
    from,
    to: [to[0], lng],
    km,
    groundName,
    sections: oneGround(grounds[groundName], Math.min(km, 10_000)),
    month: number(v, 'month'),
    R12: number(v, 'R12'),
    noise: wordOf<Environment>('noise', v.noise, environments),
    power_W: number(v, 'power'),
  };
}

/** Under half a percent is no chance worth a figure. */
const percent = (r: number): string => (r < 0.005 ? '.' : String(Math.round(100 * r)));

const rowOf = (chart: ReachChart, hour: number): string =>
  [
    String(hour).padStart(2, '0'),
    ...chart.cells[hour]!.map(
      (c) => `${percent(c.reliability)}${c.by === 'sky' && c.reliability >= 0.005 ? 's' : ' '}`,
    ),
  ]
    .map((cell, i) => (i === 0 ? cell.padEnd(4) : cell.padStart(6)))
    .join('')
    .concat(chart.MUF_MHz[hour] === null ? '     –' : chart.MUF_MHz[hour]!.toFixed(1).padStart(7))
    .trimEnd();

/** The whole table as text. */
export function reachTable(v: Values): string {
  const c = circuitOf(v);
  const chart = reachChart(c, FREQUENCIES);
  const head = ['UT', ...FREQUENCIES.map((f) => `${f < 10 ? f.toFixed(1) : f.toFixed(0)} `)]
    .map((cell, i) => (i === 0 ? cell.padEnd(4) : cell.padStart(6)))
    .join('');
  return [
    `Reach over ${c.km.toFixed(c.km < 10 ? 1 : 0)} km, ground ${c.groundName}, month ${c.month}, R12 ${c.R12}, noise ${c.noise}, ${c.power_W} W into a 5.2 m whip at either end`,
    'Chance in percent of days that 50 Bd print gets through with one character in a hundred wrong',
    '',
    `${head}    MUF`,
    ...Array.from({ length: 24 }, (_, hour) => rowOf(chart, hour)),
    '',
    'Frequencies in MHz, hours UT. s: by sky wave, else by ground wave. A dot: under half a percent.',
    'Atmospheric noise is not counted: nights and thunderstorms are worse on the lowest frequencies.',
  ].join('\n');
}
