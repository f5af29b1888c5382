/** `reach` for people: hours against frequencies, the chance of print in percent. */
import { type Circuit, eastOf, ladder_MHz, oneGround, type ReachChart, reachChart } from '../core/physics/circuit.ts';
import { type GroundName, grounds } from '../core/physics/ground-wave/ground.ts';
import { type Environment, environments } from '../core/physics/noise/noise.ts';
import { distance_km } from '../core/physics/sky-wave/geometry.ts';
import { Plain, USAGE, wholeNumber } from './verb.ts';

/** Flags of the table. */
export const TABLE_FLAGS = {
  from: { type: 'string' },
  to: { type: 'string' },
  km: { type: 'string' },
  ground: { type: 'string', default: 'average' },
  month: { type: 'string', default: '6' },
  R12: { type: 'string', default: '60' },
  noise: { type: 'string', default: 'rural' },
  power: { type: 'string', default: '120' },
} as const;
type Values = { [K in keyof typeof TABLE_FLAGS]?: string | undefined };

/** Where a table starts when no place is told: the theatre of the trainer's own coast. */
const HERE: [number, number] = [52, 10];
const FREQUENCIES = ladder_MHz(1.8, 17, 14);
/** Half round the Earth. */
const MOST_KM = 20_000;

const usage = (flag: string, wants: string, got: string): Plain =>
  new Plain(`--${flag} takes ${wants}, got ${JSON.stringify(got)}`, USAGE);

function placeOf(flag: 'from' | 'to', text: string): [number, number] {
  const parts = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  const [lat, lng] = parts;
  if (parts.length !== 2 || !(Math.abs(lat!) <= 90) || !(Math.abs(lng!) <= 180))
    throw usage(flag, 'latitude and longitude, as 52,10', text);
  return [lat!, lng!];
}

function number(flag: 'km' | 'power', text: string, min: number, max: number): number {
  const n = Number(text);
  if (text.trim() === '' || !(n >= min && n <= max)) throw usage(flag, `a number from ${min} to ${max}`, text);
  return n;
}

function oneOf<T extends string>(flag: keyof Values, text: string, names: readonly T[]): T {
  if (!(names as readonly string[]).includes(text)) throw usage(flag, `one of ${names.join(', ')}`, text);
  return text as T;
}

function endsOf(v: Values): { from: [number, number]; to: [number, number]; km: number } {
  const from = v.from === undefined ? HERE : placeOf('from', v.from);
  if ((v.to === undefined) === (v.km === undefined)) throw new Plain('reach wants one of --to and --km', USAGE);
  if (v.to === undefined) {
    const km = number('km', v.km as string, 0.1, MOST_KM);
    return { from, to: eastOf(from, km), km };
  }
  const to = placeOf('to', v.to);
  return { from, to, km: distance_km({ lat: from[0], lng: from[1] }, { lat: to[0], lng: to[1] }) };
}

/** The circuit that the flags ask for; a plain usage error for what they cannot mean. */
export function circuitOf(v: Values): Circuit & { km: number; groundName: GroundName } {
  const groundName = oneOf('ground', v.ground!, Object.keys(grounds) as GroundName[]);
  const { from, to, km } = endsOf(v);
  // A longitude past the date line comes round again.
  const lng = to[1] > 180 ? to[1] - 360 : to[1];
  return {
    from,
    to: [to[0], lng],
    km,
    groundName,
    sections: oneGround(grounds[groundName], Math.min(km, 10_000)),
    month: wholeNumber('month', v.month!, 1, 12),
    R12: wholeNumber('R12', v.R12!, 0, 311),
    noise: oneOf<Environment>('noise', v.noise!, environments),
    power_W: number('power', v.power!, 0.001, 1_000_000),
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
