/** Makes the recordings under assets/sounds: npx tsx test/sound/make-sounds.ts. All are computed here; nothing is recorded or taken from elsewhere. */
import { mkdirSync, writeFileSync } from 'node:fs';

const FOLDER = 'assets/sounds';
const STRIKE_RATE = 16_000;
const LOOP_RATE = 8000;
const TURN = 2 * Math.PI;

/** White noise from -1 to 1, the same at every run. */
function noiseFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}

/** A part of a strike: rings at a frequency (0: noise, dulled above `dull` Hz), dies away with a time constant, begins late. */
type Part = { f: number; size: number; dies_ms: number; at_ms?: number; dull?: number };

function strike(length_ms: number, parts: readonly Part[], seed: number): Float64Array {
  const x = new Float64Array(Math.round((length_ms * STRIKE_RATE) / 1000));
  const noise = noiseFrom(seed);
  for (const { f, size, dies_ms, at_ms = 0, dull = 6000 } of parts) {
    const keep = 1 - Math.exp((-TURN * dull) / STRIKE_RATE);
    let low = 0;
    for (let i = Math.round((at_ms * STRIKE_RATE) / 1000), k = 0; i < x.length; i++, k++) {
      const t_ms = (k * 1000) / STRIKE_RATE;
      low += keep * (noise() - low);
      const body = f === 0 ? low : Math.sin((TURN * f * t_ms) / 1000);
      x[i]! += size * body * Math.exp(-t_ms / dies_ms) * Math.min(1, t_ms / 0.3);
    }
  }
  const tail = Math.min(x.length, 160);
  for (let i = 0; i < tail; i++) x[x.length - 1 - i]! *= i / tail;
  return x;
}

/** A loop without a seam: harmonics of whole turns a loop, and noise whose filter has gone round once before. */
function loop(
  length_s: number,
  tones: readonly (readonly [f: number, size: number])[],
  hiss: { size: number; low: number; high: number; beats?: number; depth?: number },
  seed: number,
): Float64Array {
  const n = Math.round(length_s * LOOP_RATE);
  const noise = noiseFrom(seed);
  const raw = Float64Array.from({ length: n }, noise);
  const [a, b] = [hiss.high, hiss.low].map((f) => 1 - Math.exp((-TURN * f) / LOOP_RATE)) as [number, number];
  const x = new Float64Array(n);
  let [top, bottom] = [0, 0];
  for (let pass = 0; pass < 2; pass++)
    for (let i = 0; i < n; i++) {
      top += a * (raw[i]! - top);
      bottom += b * (top - bottom);
      const beat = hiss.beats ? (0.5 + 0.5 * Math.cos((TURN * hiss.beats * i) / n)) ** 3 : 1;
      const swell = 1 - (hiss.depth ?? 0) * (1 - beat);
      x[i] = hiss.size * (top - bottom) * swell;
    }
  for (const [f, size] of tones) {
    const turns = Math.round(f * length_s);
    for (let i = 0; i < n; i++) x[i]! += size * Math.sin((TURN * turns * i) / n + turns);
  }
  return x;
}

/** WAV, 16 bits, one channel, loudest sample at 0.9. */
function wav(x: Float64Array, rate: number): Buffer {
  const peak = x.reduce((most, v) => Math.max(most, Math.abs(v)), 1e-9);
  const out = Buffer.alloc(44 + 2 * x.length);
  out.write('RIFF', 0);
  out.writeUInt32LE(36 + 2 * x.length, 4);
  out.write('WAVEfmt ', 8);
  out.writeUInt32LE(16, 16);
  out.writeUInt16LE(1, 20);
  out.writeUInt16LE(1, 22);
  out.writeUInt32LE(rate, 24);
  out.writeUInt32LE(2 * rate, 28);
  out.writeUInt16LE(2, 32);
  out.writeUInt16LE(16, 34);
  out.write('data', 36);
  out.writeUInt32LE(2 * x.length, 40);
  for (const [i, v] of x.entries()) out.writeInt16LE(Math.round((v / peak) * 0.9 * 32_767), 44 + 2 * i);
  return out;
}

const knock = (f: number, size = 1): Part[] => [
  { f: 0, size, dies_ms: 3, dull: 4000 },
  { f, size: 0.7 * size, dies_ms: 12 },
  { f: 2.76 * f, size: 0.35 * size, dies_ms: 6 },
];
const later = (parts: readonly Part[], at_ms: number): Part[] => parts.map((p) => ({ ...p, at_ms }));

const strikes: Readonly<Record<string, Float64Array>> = {
  lever: strike(110, [...knock(240), ...later(knock(330, 0.8), 38)], 1),
  button: strike(70, [...knock(620, 0.7), ...later(knock(810, 0.5), 24)], 2),
  detent: strike(
    30,
    [
      { f: 0, size: 1, dies_ms: 1.5, dull: 3000 },
      { f: 1500, size: 0.5, dies_ms: 4 },
    ],
    3,
  ),
  plug: strike(90, [{ f: 0, size: 0.3, dies_ms: 22, dull: 2500 }, ...later(knock(700), 40)], 4),
  contact: strike(
    40,
    [
      { f: 0, size: 0.6, dies_ms: 2 },
      { f: 2100, size: 0.6, dies_ms: 5 },
    ],
    5,
  ),
  relay: strike(80, [...knock(1150), ...later(knock(980, 0.45), 9), ...later(knock(1020, 0.2), 15)], 6),
  breaker: strike(
    170,
    [...knock(140, 1.2), { f: 0, size: 1, dies_ms: 9, dull: 2000 }, ...later(knock(410, 0.6), 14)],
    7,
  ),
  hammer: strike(65, [...knock(880), { f: 0, size: 0.8, dies_ms: 6, dull: 3500 }, ...later(knock(300, 0.4), 22)], 8),
  function: strike(45, [...knock(410, 0.8)], 9),
  carriage: strike(
    260,
    [
      { f: 0, size: 0.45, dies_ms: 140, dull: 2200 },
      { f: 190, size: 0.2, dies_ms: 120 },
      ...later(knock(210, 1.3), 190),
    ],
    10,
  ),
  bell: strike(
    700,
    [
      { f: 2093, size: 1, dies_ms: 190 },
      { f: 2093 * 2.01, size: 0.3, dies_ms: 90 },
      { f: 2093 * 2.76, size: 0.25, dies_ms: 60 },
      { f: 0, size: 0.5, dies_ms: 2 },
    ],
    11,
  ),
  keytop: strike(55, [{ f: 0, size: 0.5, dies_ms: 4, dull: 1800 }, ...later(knock(360, 0.8), 12)], 12),
  tick: strike(
    32,
    [
      { f: 0, size: 0.8, dies_ms: 1.5 },
      { f: 1720, size: 0.5, dies_ms: 5 },
    ],
    13,
  ),
  punch: strike(60, [...knock(520), { f: 0, size: 1, dies_ms: 5, dull: 5000 }], 14),
  paper: strike(
    240,
    [
      { f: 0, size: 1, dies_ms: 110, dull: 5500 },
      { f: 0, size: 0.7, dies_ms: 70, at_ms: 70, dull: 5500 },
    ],
    15,
  ),
  locked: strike(
    90,
    [...knock(150, 1.2), ...later(knock(128, 0.6), 16), { f: 0, size: 0.5, dies_ms: 5, dull: 900 }],
    17,
  ),
  starter: strike(120, [...knock(170, 1.1), ...later(knock(150, 0.5), 45)], 16),
};

const loops: Readonly<Record<string, Float64Array>> = {
  // A four-pole set at 25 turns a second: hum at 50 and 100 Hz, brushes above.
  hum: loop(
    0.6,
    [
      [50, 0.5],
      [100, 1],
      [150, 0.2],
      [200, 0.4],
      [400, 0.25],
      [800, 0.2],
      [1200, 0.08],
    ],
    { size: 0.5, low: 900, high: 3000 },
    21,
  ),
  // Four strokes, four cylinders at 1,500 turns a minute: 50 firings a second.
  engine: loop(
    0.8,
    [
      [25, 0.6],
      [50, 1],
      [75, 0.4],
      [100, 0.6],
      [150, 0.3],
      [212.5, 0.15],
    ],
    { size: 2.2, low: 60, high: 900, beats: 40, depth: 0.7 },
    22,
  ),
  crank: loop(
    0.8,
    [
      [90, 0.4],
      [180, 0.3],
      [640, 0.25],
    ],
    { size: 2.5, low: 80, high: 700, beats: 4, depth: 0.9 },
    23,
  ),
  vent: loop(
    1,
    [
      [120, 0.1],
      [240, 0.06],
    ],
    { size: 3, low: 150, high: 900 },
    24,
  ),
  motor: loop(
    0.5,
    [
      [50, 0.5],
      [100, 0.7],
      [300, 0.2],
      [900, 0.15],
    ],
    { size: 1.2, low: 300, high: 2000, beats: 12, depth: 0.4 },
    25,
  ),
  whirr: loop(
    0.4,
    [
      [330, 0.5],
      [660, 0.35],
      [1650, 0.25],
    ],
    { size: 0.8, low: 500, high: 2500, beats: 20, depth: 0.5 },
    26,
  ),
};

mkdirSync(FOLDER, { recursive: true });
for (const [name, x] of Object.entries(strikes)) writeFileSync(`${FOLDER}/${name}.wav`, wav(x, STRIKE_RATE));
for (const [name, x] of Object.entries(loops)) writeFileSync(`${FOLDER}/${name}.wav`, wav(x, LOOP_RATE));
