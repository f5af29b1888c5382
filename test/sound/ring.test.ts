import { expect, test } from 'vitest';
import { Ring, STORE_S } from '../../src/sound/ring.ts';

const IN = 8000;

/** Plays `seconds` of a note through the ring, blocks of 40 ms in, 128 samples out, as a sound card asks. */
function play(f_Hz: number, outRate: number, seconds: number): Float64Array {
  const ring = new Ring(IN, outRate);
  const out: number[] = [];
  const buffer = new Float32Array(128);
  let sent = 0;
  const send = () => {
    const block = Float32Array.from({ length: 320 }, (_, i) => Math.sin((2 * Math.PI * f_Hz * (sent + i)) / IN));
    ring.push(block);
    sent += 320;
  };
  for (let i = 0; i < 4; i++) send();
  while (out.length < seconds * outRate) {
    while (sent / IN < out.length / outRate + STORE_S + 0.02) send();
    ring.pull(buffer);
    out.push(...buffer);
  }
  return Float64Array.from(out);
}

/** Sine of frequency near f, fitted by least squares: its frequency and what is left over, dB. */
function sineOf(x: Float64Array, f_Hz: number, rate: number) {
  const project = (from: number, to: number, f: number) => {
    let [c, s] = [0, 0];
    for (let i = from; i < to; i++) {
      c += x[i]! * Math.cos((2 * Math.PI * f * i) / rate);
      s += x[i]! * Math.sin((2 * Math.PI * f * i) / rate);
    }
    return { c: (2 * c) / (to - from), s: (2 * s) / (to - from) };
  };
  const half = Math.floor(x.length / 2);
  let f = f_Hz;
  for (let pass = 0; pass < 4; pass++) {
    const [a, b] = [project(0, half, f), project(half, 2 * half, f)];
    const turns = (Math.atan2(b.c, b.s) - Math.atan2(a.c, a.s)) / (2 * Math.PI);
    f += ((turns - Math.round(turns)) * rate) / half;
  }
  const { c, s } = project(0, 2 * half, f);
  const rest = x.reduce(
    (sum, v, i) =>
      sum + (v - c * Math.cos((2 * Math.PI * f * i) / rate) - s * Math.sin((2 * Math.PI * f * i) / rate)) ** 2,
    0,
  );
  return { f, size: Math.hypot(c, s), rest_dB: 10 * Math.log10(rest / x.length / ((c * c + s * s) / 2)) };
}

test('a note keeps its pitch and its purity through the change of rate', () => {
  for (const outRate of [44_100, 48_000])
    for (const f of [300, 1000, 2400]) {
      // A fifth of a second from the middle: the pace hardly moves in it.
      const x = play(f, outRate, 1.5).subarray(outRate, Math.round(1.2 * outRate));
      const got = sineOf(x, f, outRate);
      expect(Math.abs(got.f / f - 1)).toBeLessThan(0.0025);
      expect(got.size).toBeCloseTo(1, 1);
      expect(got.rest_dB).toBeLessThan(-40);
    }
});

test('it waits for a store, falls silent when the store runs out, and begins again', () => {
  const ring = new Ring(IN, 48_000);
  const out = new Float32Array(480);
  const pull = () => {
    ring.pull(out);
    return out.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  };
  ring.push(new Float32Array(800).fill(0.5));
  expect(pull()).toBe(0);
  ring.push(new Float32Array(800).fill(0.5));
  pull();
  expect(pull()).toBeCloseTo(0.5, 2);
  for (let i = 0; i < 40; i++) pull();
  expect(pull()).toBe(0);
  ring.push(new Float32Array(1600).fill(0.5));
  pull();
  expect(pull()).toBeCloseTo(0.5, 2);
});

test('it never holds more than half a second, so what is heard is never old', () => {
  const ring = new Ring(IN, 48_000);
  for (let i = 0; i < 100; i++) {
    ring.push(new Float32Array(800));
    expect(ring.stored_s).toBeLessThanOrEqual(0.5);
  }
});
