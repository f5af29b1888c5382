import { expect, test } from 'vitest';
import type { Arrival, Ear, HeardWord } from '../../../../src/core/signals.ts';
import { hand } from '../../../../src/core/station/boxes/hand.ts';
import { receiver } from '../../../../src/core/station/boxes/receiver.ts';
import { blocking_dB, drift_Hz, innerNoise_dB } from '../../../../src/core/station/boxes/receiver-front.ts';
import type { Caption } from '../../../../src/core/station/wires.ts';
import { Rig, silentEar } from './rig.ts';

const F_Hz = 5_100_000;
const WORDS = 'QUEBEC VICTOR FOUR MIKE THIS IS QUEBEC VICTOR SEVEN KILO OVER'.split(' ');

type Talk = { cn0_dB?: number; f_Hz?: number; by?: 'voice' | 'morse'; from_us?: number; field_dBuV?: number };

function said({ cn0_dB = 80, f_Hz = F_Hz, by = 'voice', from_us = 2e6 }: Talk): HeardWord[] {
  return WORDS.map((word, i) => ({
    t0_us: from_us + i * 400_000,
    t1_us: from_us + (i + 1) * 400_000,
    word,
    by,
    station: 'QV7K',
    f_Hz,
    depth: 0.8,
    cn0_dB,
  }));
}

function earOf(talk: Talk, others: Partial<Arrival>[] = []): Ear {
  const words = said(talk);
  const own: Arrival = {
    station: 'QV7K',
    emission: 'A3E',
    f_Hz: talk.f_Hz ?? F_Hz,
    field_dBuV: talk.field_dBuV ?? (talk.cn0_dB ?? 80) - 30,
    cn0_dB: talk.cn0_dB ?? 80,
    depth: 0.8,
  };
  return {
    ...silentEar,
    arrivals: () => [own, ...others.map((o) => ({ ...own, station: 'QV9B', ...o }))],
    words: (t0, t1) => words.filter((w) => w.t1_us > t0 && w.t1_us <= t1),
  };
}

const RX = { power: true, band: '4', dial: 1100, trim: 5.3, rfGain: 10, bandwidth: '6', agc: 'fast', afGain: 8 };

function listening(ear: Ear, rx = {}, inner = {}, ears = {}): Rig {
  const rig = new Rig(
    [hand, receiver],
    {
      hand: { controls: { phones: 8, ...ears } },
      receiver: { controls: { ...RX, ...rx }, inner },
    },
    ear,
  );
  rig.w.whip.height_m = 5.2;
  return rig;
}

const captions = (rig: Rig) => rig.see('hand.heard') as unknown as Caption[];
/** Share of the words that came through. */
function share(talk: Talk, rx = {}, others: Partial<Arrival>[] = []): number {
  const got = captions(listening(earOf(talk, others), rx).run(8))[0]?.words.split(' ') ?? [];
  return got.filter((w) => w !== '...').length / WORDS.length;
}

test('a good signal is heard to the word, and is over 0.7 s after its last', () => {
  const rig = listening(earOf({})).run(6.5);
  expect(captions(rig)[0]).toMatchObject({ n: 1, words: WORDS.join(' '), by: 'voice', ended: false, from_us: 2e6 });
  rig.run(1);
  expect(captions(rig)[0]?.ended).toBe(true);
  expect(rig.notes.find((n) => n.k === 'heard')).toMatchObject({ words: WORDS.join(' '), by: 'voice', from_us: 2e6 });
});

test('nothing is heard with headset and loudspeaker down, or AF gain down, or the receiver off', () => {
  const heard = (rx: object, ears: object) => captions(listening(earOf({}), rx, {}, ears).run(8)).length;
  expect(heard({}, { phones: 0 })).toBe(0);
  expect(heard({}, { phones: 0, speaker: true })).toBe(1);
  expect(heard({ afGain: 0 }, {})).toBe(0);
  expect(heard({ power: false }, {})).toBe(0);
});

test('weaker signals lose words, more and more', () => {
  expect(share({ cn0_dB: 60 })).toBe(1);
  const weak = share({ cn0_dB: 36 });
  expect(weak).toBeGreaterThan(0);
  expect(weak).toBeLessThan(1);
  expect(share({ cn0_dB: 20 })).toBe(0);
});

test('speech needs the width: 6 and 3 kHz pass it, 0.5 kHz does not (articulation bands begin at 200 Hz)', () => {
  expect(share({}, { bandwidth: '3' })).toBeGreaterThan(0.9);
  expect(share({}, { bandwidth: '0.5' })).toBe(0);
});

test('off tune by more than half the bandwidth there is no voice', () => {
  expect(share({}, { fine: 1 })).toBeGreaterThan(0.9);
  expect(share({}, { fine: 4 })).toBe(0);
});

test('the dial error puts the receiver beside the station that the scale says', () => {
  const rig = listening(earOf({}), {}, { dialError_kHz: 6 }).run(8);
  expect(rig.see('receiver.scale')).toBe(5100);
  expect(captions(rig)).toEqual([]);
});

test('Morse is heard with the BFO on at a pitch that an ear can follow', () => {
  const morse = { by: 'morse', cn0_dB: 45 } as const;
  expect(share(morse, { pitch: 0.8 })).toBe(0);
  expect(share(morse, { bfo: true })).toBe(0);
  expect(share(morse, { bfo: true, pitch: 0.8 })).toBe(1);
  expect(share({ ...morse, cn0_dB: 20 }, { bfo: true, pitch: 0.8 })).toBe(0);
});

test('another carrier as strong in the passband takes words, outside it does not', () => {
  expect(share({ cn0_dB: 60 }, {}, [{ f_Hz: F_Hz + 500, cn0_dB: 62 }])).toBeLessThan(0.8);
  expect(share({ cn0_dB: 60 }, {}, [{ f_Hz: F_Hz + 12_000, cn0_dB: 62 }])).toBe(1);
});

test('with its relay at the sender and no second whip the receiver is deaf, and a word needs most of its time', () => {
  const rig = listening(earOf({}));
  rig.w.relay = 'sender';
  rig.run(4.3);
  expect(captions(rig)).toEqual([]);
  rig.w.relay = 'receiver';
  rig.station.settle();
  rig.run(4);
  expect(captions(rig)[0]?.words.split(' ')).toEqual(WORDS.slice(6));
});

test('slow AGC is pressed down by the own sender for a second or two, fast hardly', () => {
  const after = (agc: string) => {
    const rig = listening(earOf({ cn0_dB: 45 }), { agc });
    Object.assign(rig.w, { relay: 'sender', radiated_W: 50 });
    rig.run(2);
    Object.assign(rig.w, { relay: 'receiver', radiated_W: 0 });
    return captions(rig.run(6))[0]?.words.split(' ').length;
  };
  expect(after('slow')).toBeLessThan(after('fast') as number);
});

test('a second whip 15 m off and 1 MHz apart hears at once, near or close in frequency it is blocked (common practice)', () => {
  expect(blocking_dB(50, 15, 5.2, 1e6, 5e6)).toBe(0);
  expect(blocking_dB(50, 15, 5.2, 100e3, 5e6)).toBeGreaterThan(20);
  expect(blocking_dB(50, 2, 5.2, 1e6, 5e6)).toBeGreaterThan(10);
  expect(blocking_dB(0, 2, 5.2, 0, 5e6)).toBe(0);
});

test('without AGC too much gain spoils a strong voice; less gain or the limiter mends it', () => {
  const strong = { cn0_dB: 115 };
  expect(share(strong, { agc: 'off', rfGain: 10 })).toBeLessThan(0.9);
  expect(share(strong, { agc: 'off', rfGain: 7 })).toBe(1);
  expect(share(strong, { agc: 'off', rfGain: 10, limiter: true })).toBeGreaterThan(
    share(strong, { agc: 'off', rfGain: 10 }),
  );
});

test('aerial trim: level peaks at its place and the place moves with the dial', () => {
  const level = (trim: number, dial: number) =>
    listening(earOf({ f_Hz: 4_000_000 + 1000 * dial, cn0_dB: 60 }), { trim, dial })
      .run(1)
      .see('receiver.level') as number;
  expect(level(2.3, 100)).toBeGreaterThan(level(6, 100) + 10);
  expect(level(7.7, 1900)).toBeGreaterThan(level(6, 1900) + 3);
});

test('level meter: S9, -73 dBm into 50 ohm (IARU Region 1 R.1), reads 40 dB above a microvolt EMF', () => {
  // -73 dBm is 50 microvolts across 50 ohm, which wants an EMF of 100 microvolts behind as much.
  const across_V = Math.sqrt(50 * 1e-3 * 10 ** (-73 / 10));
  const emf_dBuV = 20 * Math.log10((2 * across_V) / 1e-6);
  // A 5.2 m whip has an effective height of 2.6 m, 8.3 dB.
  const rig = listening(earOf({ field_dBuV: emf_dBuV - 8.3 }), { trim: 5.3 }).run(1);
  expect(rig.see('receiver.level')).toBe(40);
  expect(listening(earOf({}), { agc: 'off' }).run(1).see('receiver.level')).toBe(0);
});

test('own noise: 12 dB figure, so a 5.2 m whip in rural noise at 5 MHz (about -33 dBuV/m in 1 Hz, ITU-R P.372) hears the outside by 24 dB', () => {
  expect(innerNoise_dB(-33.4, 5.2, 0, 0)).toBeCloseTo(-49 + 33.4 - 8.3, 1);
  expect(innerNoise_dB(-33.4, 5.2, -40, 0) - innerNoise_dB(-33.4, 5.2, 0, 0)).toBeCloseTo(40, 5);
});

test('warm-up drift comes near 40 Hz in ten minutes and no further', () => {
  expect(drift_Hz(0)).toBe(0);
  expect(drift_Hz(600)).toBeGreaterThan(38);
  expect(drift_Hz(1e6)).toBeLessThanOrEqual(40);
  const rig = listening(silentEar).run(600);
  expect(rig.w.rx.tuned_Hz - F_Hz).toBeGreaterThan(38);
});

test('the note falls to nothing where the carrier is in the middle, and follows the pitch', () => {
  const note = (rx: object) =>
    listening(earOf({}), { bfo: true, ...rx })
      .run(1)
      .see('receiver.note');
  expect(note({})).toBe(0);
  expect(note({ fine: 0.5 })).toBe(500);
  expect(note({ fine: -0.5 })).toBe(500);
  expect(note({ pitch: 0.8 })).toBe(800);
  expect(note({ bfo: false })).toBe(null);
  expect(listening(silentEar, { bfo: true }).run(1).see('receiver.note')).toBe(null);
});

test('calibration: zero beat at the nearest 250 kHz, index to the round figure, and the scale tells the truth in the band', () => {
  const rig = listening(silentEar, { bfo: true, calibrator: true, bandwidth: '6' }, { dialError_kHz: -5.37 }).run(1);
  rig.do('receiver.dial', 1250);
  const beatAt = (dial: number, fine: number) =>
    rig.do('receiver.dial', dial).do('receiver.fine', fine).see('receiver.note') as number | null;
  // By ear: the dial to where the note is lowest, then the fine tuning.
  const lowest = (xs: number[], at: (x: number) => number | null) =>
    xs.reduce((best, x) => ((at(x) ?? 9999) < (at(best) ?? 9999) ? x : best));
  const dial = lowest(
    Array.from({ length: 21 }, (_, i) => 1240 + i),
    (d) => beatAt(d, 0),
  );
  const fine = lowest(
    Array.from({ length: 201 }, (_, i) => -0.5 + i / 200),
    (f) => beatAt(dial, f),
  );
  expect(beatAt(dial, fine)).toBe(0);
  const off = 5250 - (rig.see('receiver.scale') as number);
  rig.do('receiver.index', off);
  expect(rig.see('receiver.scale')).toBeCloseTo(5250, 1);
  rig.do('receiver.dial', 800);
  // Fine tuning to 5 Hz, note to 5 Hz, index to 10 Hz.
  expect(Math.abs(rig.w.rx.tuned_Hz - 1000 * (rig.see('receiver.scale') as number))).toBeLessThan(20);
});

test('the crystal may be off too: by 10 ppm the note at 5 MHz is 50 Hz', () => {
  const rig = listening(silentEar, { bfo: true, calibrator: true, dial: 1000 }, { crystal_ppm: 10 }).run(0.25);
  expect(rig.see('receiver.note')).toBe(50);
});

test('looking changes nothing', () => {
  const rig = listening(earOf({}), { bfo: true }).run(4);
  const before = JSON.stringify(rig.station.state);
  for (const box of rig.station.boxes) for (const i of box.indicators) rig.see(`${box.id}.${i.id}`);
  expect(JSON.stringify(rig.station.state)).toBe(before);
  expect(before).not.toContain('null,null');
});
