import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { makeFskWav, makeMorse, readFsk, readMorse } from '../../../src/core/samples/listening.ts';
import { dice, editDistance, groups } from './dice.ts';

const errorShare = (got: string, sent: string) => editDistance(got, sent) / sent.length;

const combinations = [45.45, 50, 75].flatMap((baud) =>
  [170, 850].flatMap((shift) => (['mark low', 'mark high'] as const).map((sense) => [baud, shift, sense] as const)),
);
test.each(combinations)('%d Bd, %d Hz, %s: clean and at 20 dB a text comes back whole', (baud, shift, sense) => {
  const options = { baud, shift, sense, centre: 1234, stop_units: 1.42 } as const;
  const text = 'QV4M DE QV7K MSG NR 12/3 (COPY 2)';
  for (const added of [undefined, { ebN0_dB: 20, noise: dice(baud) }]) {
    const x = makeFskWav({ ...options, text, ...(added && { added }) });
    expect(x.reduce((m, v) => Math.max(m, Math.abs(v)), 0)).toBeLessThan(0.9 + 1e-9);
    expect(readFsk(x, 8000, options)).toBe(text);
  }
});

test.each([1, 1.42, 1.5, 2])('a stop of %d units is found though 1.5 is expected', (stop_units) => {
  const text = groups(3, 20);
  expect(readFsk(makeFskWav({ text, stop_units }), 8000)).toBe(text);
});

// Theory for known timing, 50 Bd: 10 % of characters at 8.03 dB, 1 % at 10.43 dB (1 - (1-p)^5).
test.each([
  [9.3, 0.1],
  [11.6, 0.01],
])('ten thousand characters at %d dB: character errors at most %d', (ebN0_dB, most) => {
  const text = groups(1, 1700);
  expect(text.length).toBeGreaterThan(10_000);
  const x = makeFskWav({ text, unshiftOnSpace: true, added: { ebN0_dB, noise: dice(1000) } });
  expect(errorShare(readFsk(x, 8000, { unshiftOnSpace: true }), text)).toBeLessThanOrEqual(most);
});

// Recordings made by an independent general-purpose modem: minimodem 0.24 (Debian 12), "minimodem --tx --baudot --stopbits 1.5
// -M mark -S space -R 8000 -f file speed", the text from printf.
test.each([
  ['minimodem-50-850.wav', { baud: 50, shift: 850, centre: 2000, sense: 'mark low' }, 'QV4M DE QV7K MSG 12'],
  [
    'minimodem-4545-170-mark-high.wav',
    { baud: 45.45, shift: 170, centre: 1000, sense: 'mark high' },
    'QV9B DE QV4M 0600',
  ],
] as const)('%s reads as it was sent', (file, options, text) => {
  const bytes = readFileSync(new URL(`../../vectors/${file}`, import.meta.url));
  const from = bytes.indexOf('data') + 8;
  const x = Float64Array.from(
    { length: (bytes.length - from) >> 1 },
    (_, i) => bytes.readInt16LE(from + 2 * i) / 32768,
  );
  expect(readFsk(x, 8000, options).trim()).toBe(text);
  const noise = dice(77);
  const power = x.reduce((s, v) => s + v * v, 0) / x.length;
  const sigma = Math.sqrt((power / 20 / options.baud) * 4000); // Eb/N0 13 dB
  expect(
    readFsk(
      x.map((v, i) => v + sigma * noise(i)),
      8000,
      options,
    ).trim(),
  ).toBe(text);
});

test('the wrong sense never reads clean', () => {
  const text = groups(4, 40);
  const x = makeFskWav({ text });
  expect(errorShare(readFsk(x, 8000, { sense: 'mark high' }), text)).toBeGreaterThan(0.6);
});

test('pauses between characters and between transmissions are followed', () => {
  const one = makeFskWav({ text: 'QV4M', lead_s: 0.73 });
  const x = new Float64Array(3 * one.length);
  for (const k of [0, 1, 2]) x.set(one, k * one.length);
  expect(readFsk(x, 8000)).toBe('QV4MQV4MQV4M');
});

test('tones that do not fit the rate throw', () => {
  expect(() => makeFskWav({ text: 'A', centre: 3900 })).toThrow(RangeError);
  expect(() => makeFskWav({ text: 'A', centre: 300 })).toThrow(RangeError);
});

const MORSE = 'QV4M DE QV7K MSG NR 12 GR 25 = WHARF LIGHT OUT SEND LAMP TODAY = <SK>';

test.each([5, 8, 12, 16, 20, 25, 30])(
  'Morse at %d wpm, tone and speed not told: clean and at 18 dB a dot it reads',
  (wpm) => {
    const text = wpm < 10 ? MORSE.slice(0, 19) : MORSE;
    expect(readMorse(makeMorse({ text, wpm, tone: 812 }), 8000)).toBe(text);
    const noisy = makeMorse({ text, wpm, added: { ebN0_dB: 18, noise: dice(wpm) } });
    expect(errorShare(readMorse(noisy, 8000), text)).toBeLessThan(0.03);
  },
);
