import { expect, test } from 'vitest';
import {
  type ConverterOptions,
  type ConverterState,
  converterAtRest,
  converterRun,
} from '../../../src/core/samples/converter.ts';
import { fskAtRest, fskRun } from '../../../src/core/samples/fsk.ts';
import { addNoise } from '../../../src/core/samples/noise.ts';
import { measureDistortion } from '../../../src/core/telegraphy/distortion.ts';
import { encode } from '../../../src/core/telegraphy/ita2.ts';
import { selectorAtRest, selectorRun } from '../../../src/core/telegraphy/selector.ts';
import { codesEdges, type Edge, levelAt } from '../../../src/core/telegraphy/startstop.ts';
import { dice, uniform } from './dice.ts';

const RATE = 4000;
const CODES = encode('THE QUICK BROWN FOX 1234567890 RYRYRYRYRY').codes;
const LOW = { sense: 'mark low' } as const;
const HIGH = { sense: 'mark high' } as const;

function signal(edges: readonly Edge[], seconds: number, options: ConverterOptions) {
  return fskRun(fskAtRest(), edges, Math.round(seconds * RATE), RATE, options);
}
function printed(edges: readonly Edge[], baud: number, until_us: number) {
  return selectorRun(selectorAtRest(), edges, until_us, { baud }).chars.map((c) => c.code);
}

const cases = [45.45, 50, 75, 100].flatMap((baud) =>
  [170, 200, 400, 850].flatMap((shift) =>
    (['tone filters', 'discriminator'] as const).map((kind) => [baud, shift, kind] as const),
  ),
);
test.each(cases)('%d Bd, %d Hz, %s: a clean signal prints as sent, at any centre', (baud, shift, kind) => {
  const options = { baud, shift, kind, ...LOW, centre: -310 };
  const { edges, end_us } = codesEdges(CODES, 300_000, baud, 1.5);
  const s = signal(edges, end_us / 1e6 + 0.2, options);
  const out = converterRun(converterAtRest(), s.re, s.im, RATE, options);
  expect(printed(out.edges, baud, end_us + 200_000)).toEqual(CODES);
  expect(measureDistortion(out.edges, baud).degree).toBeLessThan(20);
});

test('in pieces as at once, through JSON', () => {
  const options = { shift: 400, ...LOW };
  const { edges, end_us } = codesEdges(CODES, 300_000, 50, 1.5);
  const s = signal(edges, end_us / 1e6, options);
  addNoise(s.re, s.im, 0.5, dice(3), 0);
  const whole = converterRun(converterAtRest(), s.re, s.im, RATE, options).edges;
  let state: ConverterState = converterAtRest();
  const pieces: Edge[] = [];
  for (let at = 0; at < s.re.length; at += 401) {
    const out = converterRun(
      JSON.parse(JSON.stringify(state)),
      s.re.slice(at, at + 401),
      s.im.slice(at, at + 401),
      RATE,
      options,
    );
    state = out.state;
    pieces.push(...out.edges);
  }
  expect(pieces.map((e) => e.mark)).toEqual(whole.map((e) => e.mark));
  for (const [i, e] of pieces.entries()) expect(Math.abs(e.t_us - whole[i]!.t_us)).toBeLessThan(2);
});

test('the tuning display shows which tone is there, and falls when the tones are off tune', () => {
  const options = { shift: 400, ...LOW };
  const levels = (offset: number) => {
    const s = signal([], 1, { ...options, centre: offset });
    return converterRun(converterAtRest(), s.re, s.im, RATE, options).state;
  };
  expect(levels(0).markLevel).toBeGreaterThan(0.95);
  expect(levels(0).spaceLevel).toBeLessThan(0.1);
  expect(levels(100).markLevel).toBeGreaterThan(0.5);
  expect(levels(150).markLevel).toBeLessThan(0.5);
});

test('wrong sense: an idle line is steady space; with hold it stays at mark and prints nothing, without it runs open', () => {
  const s = signal([], 2, { shift: 400, ...LOW });
  const hear = (hold: boolean) => {
    const { edges } = converterRun(converterAtRest(), s.re, s.im, RATE, { shift: 400, ...HIGH, hold });
    return printed(edges, 50, 2_000_000);
  };
  const open = hear(false);
  expect(open.length).toBeGreaterThan(12);
  expect(open.every((code) => code === 0)).toBe(true);
  // The hold takes a little longer than a character, so the clutch may have tripped a second time.
  expect(hear(true).length).toBeLessThanOrEqual(2);
});

test('wrong sense: traffic is steady garble, never clean', () => {
  const { edges, end_us } = codesEdges(CODES, 300_000, 50, 1.5);
  const s = signal(edges, end_us / 1e6, { shift: 400, ...LOW });
  const out = converterRun(converterAtRest(), s.re, s.im, RATE, { shift: 400, ...HIGH });
  const got = printed(out.edges, 50, end_us);
  expect(got.length).toBeGreaterThan(CODES.length / 2);
  expect(got.filter((code, i) => code === CODES[i]).length).toBeLessThan(CODES.length * 0.25);
});

test('with hold, noise alone leaves the line at mark most of the time', () => {
  const [re, im] = [new Float64Array(40 * RATE), new Float64Array(40 * RATE)];
  addNoise(re, im, 1, dice(5), 0);
  const chars = (hold: boolean) =>
    printed(converterRun(converterAtRest(), re, im, RATE, { shift: 850, ...LOW, hold }).edges, 50, 40e6).length;
  expect(chars(true)).toBeLessThan(chars(false) / 4);
});

/** Eb/N0 lost against p = exp(-Eb/2N0)/2 with the middle of each element looked at, dB. */
function loss_dB(ebN0_dB: number, bits: number, options: ConverterOptions): number {
  const baud = options.baud ?? 50;
  const unit = 1e6 / baud;
  const data = Array.from({ length: bits }, (_, i) => uniform(5, i) < 0.5);
  const edges = data.flatMap((mark, i) =>
    mark === (data[i - 1] ?? true) ? [] : [{ t_us: Math.round((i + 10) * unit), mark }],
  );
  const s = signal(edges, (bits + 20) / baud, options);
  addNoise(s.re, s.im, RATE / baud / 10 ** (ebN0_dB / 10), dice(7), 0);
  const line = converterRun(converterAtRest(), s.re, s.im, RATE, { hold: false, ...options }).edges;
  const wrong = (delay: number) =>
    data.filter((mark, i) => levelAt(line, (i + 10.5 + delay) * unit) !== mark).length / bits;
  const least = Math.min(...[0.3, 0.4, 0.5, 0.6, 0.7, 0.8].map(wrong));
  return ebN0_dB - 10 * Math.log10(-2 * Math.log(2 * least));
}

test('narrow tone filters lose about 1 dB to the ideal detector, the usual ones up to 3.5', () => {
  for (const shift of [400, 850]) {
    const narrow = loss_dB(8, 8000, { shift, ...LOW, toneWidth: 70 });
    expect(narrow).toBeGreaterThan(0.5);
    expect(narrow).toBeLessThan(1.6);
    // The usual width forgives a dial a quarter of the shift off, and pays for it in noise.
    const usual = loss_dB(8, 8000, { shift, ...LOW });
    expect(usual).toBeGreaterThan(narrow);
    expect(usual).toBeLessThan(3.5);
  }
});

test('a discriminator loses several dB more, as a wide front filter makes it', () => {
  const loss = loss_dB(10, 4000, { shift: 850, ...LOW, kind: 'discriminator' });
  expect(loss).toBeGreaterThan(3);
  expect(loss).toBeLessThan(7);
});
