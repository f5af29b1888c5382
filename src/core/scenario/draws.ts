/** What the seed decides. A draw is a pure function of seed and name, so papers, boxes and distant stations agree. */
import { die } from '../kernel/dice.ts';
import type { Json } from '../signals.ts';
import type { Draw } from './scenario.ts';

/** Most values a draw may have. */
export const MAX_FACES = 100_000;

/** How many values a draw can take, from 1. */
export function facesOf(draw: Draw): number {
  if ('of' in draw) return draw.of.length;
  if ('pick' in draw) return draw.pick.length;
  // The small addition keeps 16/0.1 from falling to 159.
  return Math.floor((draw.to - draw.from) / draw.step + 1e-9) + 1;
}

/** Value number `face` of a draw, 0-based; numbers come out as people write them (0.3, not 0.30000000000000004). */
export function faceAt(draw: Draw, face: number): Json {
  if ('of' in draw) return draw.of[face] as Json;
  if ('pick' in draw) return draw.pick[face] as Json;
  return Number((draw.from + face * draw.step).toFixed(9));
}

/** Value numbers of every draw for a seed. */
export function throwAll(draws: Record<string, Draw>, seed: number): Record<string, number> {
  const own = (name: string, draw: Draw): number => die(seed, `draw ${name}`, 0, facesOf(draw));
  return Object.fromEntries(
    Object.entries(draws).map(([name, draw]) => {
      const source = 'with' in draw ? draws[draw.with] : undefined;
      return [name, source && 'with' in draw ? own(draw.with, source) : own(name, draw)];
    }),
  );
}

/** Values of every draw for chosen value numbers. */
export function valuesAt(draws: Record<string, Draw>, faces: Record<string, number>): Record<string, Json> {
  return Object.fromEntries(Object.entries(draws).map(([name, draw]) => [name, faceAt(draw, faces[name] ?? 0)]));
}

const WHOLE = /^\$\{([A-Za-z][\w-]*)\}$/;
const INSIDE = /\$\{([A-Za-z][\w-]*)\}/g;

/** Names of draws that a string refers to. */
export const drawsIn = (text: string): string[] => Array.from(text.matchAll(INSIDE), (m) => m[1] as string);

const asText = (v: Json | undefined, name: string): string =>
  v === undefined ? `\${${name}}` : typeof v === 'string' ? v : JSON.stringify(v);

function fillText(text: string, values: Record<string, Json>): Json {
  const whole = WHOLE.exec(text);
  if (whole) return values[whole[1] as string] ?? text;
  return text.replace(INSIDE, (_, name: string) => asText(values[name], name));
}

/** Plain data with every `${name}` filled: alone in a string it becomes the value with its type, else the value as text. */
export function fill(data: Json, values: Record<string, Json>): Json {
  if (typeof data === 'string') return data.includes('${') ? fillText(data, values) : data;
  if (Array.isArray(data)) return data.map((one) => fill(one, values));
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(Object.entries(data).map(([key, v]) => [key, fill(v, values)]));
}

/** Value numbers which between them show every value of every list, both ends and the middle of every range, and the longest texts together. */
export function probes(draws: Record<string, Draw>): Record<string, number>[] {
  const entries = Object.entries(draws);
  const most = Math.min(64, Math.max(1, ...entries.map(([, d]) => ('from' in d ? 3 : facesOf(d)))));
  const at = (draw: Draw, i: number): number => {
    const n = facesOf(draw);
    return 'from' in draw ? ([0, n - 1, Math.floor(n / 2)][i % 3] as number) : i % n;
  };
  const longest = (draw: Draw): number => {
    if (!('of' in draw)) return 0;
    const lengths = draw.of.map((v) => JSON.stringify(v).length);
    return lengths.indexOf(Math.max(...lengths));
  };
  const together = (draw: Draw): number => longest('with' in draw ? (draws[draw.with] ?? draw) : draw);
  const turns = Array.from({ length: most }, (_, i) =>
    Object.fromEntries(entries.map(([name, d]) => [name, at(d, i)])),
  );
  return entries.length === 0 ? [{}] : [...turns, Object.fromEntries(entries.map(([name, d]) => [name, together(d)]))];
}
