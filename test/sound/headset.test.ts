/** What the ears get, measured: the beat note of a real drill, hiss, two tones, and the law that listening changes nothing. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Drill, Snapshot } from '../../src/core/drill.ts';
import { fskAtRest, fskRun } from '../../src/core/samples/fsk.ts';
import { addNoise } from '../../src/core/samples/noise.ts';
import type { Listening } from '../../src/core/samples/receiver-input.ts';
import { peakFrequency, powerSpectrum } from '../../src/core/samples/spectrum.ts';
import { broughtIn, Headset } from '../../src/sound/headset.ts';
import { Shelter } from '../../src/sound/shelter.ts';
import { dice } from '../core/samples/dice.ts';
import { begin, bringUp, randomActs } from '../laws/first-call.ts';

const RATE = 8000;
const dB = (ratio: number) => 10 * Math.log10(ratio);
const power = (x: Float64Array) => x.reduce((s, v) => s + v * v, 0) / x.length;

function live(): Snapshot {
  const d = begin(11);
  bringUp(d);
  return JSON.parse(d.save()) as Snapshot;
}
const start = live();
const fresh = () => begin(11, structuredClone(start));

/** Sets controls, then listens for `seconds` in steps of 40 ms, leaving out the first half second. */
function listen(d: Drill, set: Record<string, string | number | boolean>, seconds: number): Float64Array {
  for (const [control, value] of Object.entries(set)) expect(d.act(control, value)).toBeUndefined();
  const headset = new Headset(d);
  const out: number[] = [];
  for (let t = 0; t < seconds + 0.5; t += 0.04) {
    d.advance(d.now_us + 40_000);
    const block = headset.take();
    if (t >= 0.5) out.push(...block);
  }
  return Float64Array.from(out);
}

const peakOf = (x: Float64Array, size = 8192): number =>
  peakFrequency(powerSpectrum(x, new Float64Array(x.length), RATE, size), 20, 3900);

const CALIBRATE = {
  'receiver.dial': 750,
  'receiver.calibrator': true,
  'receiver.bfo': true,
  'receiver.bandwidth': '6',
  'receiver.agc': 'fast',
};

test('the calibrator’s beat falls to nothing as the dial comes right, at every step as theory says', () => {
  const d = fresh();
  const inner = d.station.state.boxes['receiver'] as unknown as { dialError_kHz: number; crystal_ppm: number };
  const crystal_Hz = 4_750_000 * (1 + inner.crystal_ppm / 1e6);
  let last = Number.POSITIVE_INFINITY;
  for (const away_kHz of [2, 1, 0.4, 0.1]) {
    const dial = 750 - Math.round(inner.dialError_kHz);
    const fine = Math.round((away_kHz - (inner.dialError_kHz - Math.round(inner.dialError_kHz))) * 200) / 200;
    const audio = listen(d, { ...CALIBRATE, 'receiver.dial': dial, 'receiver.fine': fine }, 4);
    const want = Math.abs(crystal_Hz - d.station.state.wires.rx.tuned_Hz);
    const got = peakOf(audio);
    expect(Math.abs(got - want)).toBeLessThan(RATE / 8192);
    expect(got).toBeLessThan(last);
    last = got;
  }
});

test('the hiss of a real drill follows bandwidth and RF gain', () => {
  const hiss = (set: Record<string, string | number | boolean>) =>
    dB(
      power(
        listen(
          fresh(),
          { 'receiver.dial': 1300, 'receiver.bfo': true, 'receiver.pitch': 1.7, 'receiver.agc': 'off', ...set },
          15,
        ),
      ),
    );
  const narrow = hiss({ 'receiver.bandwidth': '0.5' });
  const middle = hiss({ 'receiver.bandwidth': '1.2' });
  const wide = hiss({ 'receiver.bandwidth': '3' });
  expect(Math.abs(middle - narrow - dB(1.2 / 0.5))).toBeLessThan(0.4);
  expect(Math.abs(wide - middle - dB(3 / 1.2))).toBeLessThan(0.4);
  // 2 divisions of 8 dB; the set's own noise stays, so a little less.
  const down = wide - hiss({ 'receiver.bandwidth': '3', 'receiver.rfGain': 8 });
  expect(down).toBeGreaterThan(14);
  expect(down).toBeLessThan(16.2);
});

test('AF gain and headset are 4 dB a division, silence is silence', () => {
  const level = (set: Record<string, string | number | boolean>) => dB(power(listen(fresh(), set, 4)));
  const full = level({ 'receiver.afGain': 10, 'hand.phones': 10 });
  expect(full - level({ 'receiver.afGain': 5, 'hand.phones': 10 })).toBeCloseTo(20, 0);
  expect(full - level({ 'receiver.afGain': 10, 'hand.phones': 7 })).toBeCloseTo(12, 0);
  expect(power(listen(fresh(), { 'hand.phones': 0 }, 1))).toBe(0);
  expect(power(listen(fresh(), { 'receiver.power': false }, 1))).toBe(0);
});

/** A drill that is nothing but an ear at a print signal: 400 Hz shift, mark low, alternating every 20 ms. */
function printHeard(bfo_Hz: number | null): Float64Array {
  const listening: Listening = {
    tuned_Hz: 4_718_000,
    outside_dBuV: -15,
    inner_dB: -30,
    desensed_dB: 0,
    gain_dB: 0,
    deaf: false,
    leak_dBuV: null,
    calibrator_ppm: null,
    settings: { bandwidth_Hz: 1200, agc: 'slow', bfo_Hz, limiter: false, volume_dB: 0 },
  };
  const edges = Array.from({ length: 600 }, (_, i) => ({ t_us: 20_000 * i, mark: i % 2 === 0 }));
  let from = 0;
  const samples = (t0_us: number, t1_us: number, _f: number, rate: number) => {
    const first = Math.ceil((t0_us * rate) / 1e6);
    const count = Math.ceil((t1_us * rate) / 1e6) - first;
    const { state, re, im } = fskRun({ ...fskAtRest(first), phase: from }, edges, count, rate, {
      shift: 400,
      sense: 'mark low',
    });
    from = state.phase;
    // 70 dB-Hz.
    for (let i = 0; i < count; i++) [re[i], im[i]] = [re[i]! * 3162, im[i]! * 3162];
    addNoise(re, im, rate, dice(9), first);
    return { re, im };
  };
  const drill = {
    now_us: 0,
    listening: () => listening,
    ear: { samples },
    station: { state: { wires: { talking: false, words: [] } } },
  };
  const headset = new Headset(drill as unknown as Drill);
  const out: number[] = [];
  for (; drill.now_us < 6e6; drill.now_us += 40_000) {
    const block = headset.take();
    if (drill.now_us > 1e6) out.push(...block);
  }
  return Float64Array.from(out);
}

test('print is two notes at |tone - BFO| with the BFO on, and no note without it', () => {
  const x = printHeard(-1000);
  const spectrum = powerSpectrum(x, new Float64Array(x.length), RATE, 4096);
  expect(Math.abs(peakFrequency(spectrum, 500, 1000) - 800)).toBeLessThan(30);
  expect(Math.abs(peakFrequency(spectrum, 1000, 1600) - 1200)).toBeLessThan(30);
  expect(dB(power(printHeard(null)) / power(x))).toBeLessThan(-10);
});

test('listening never changes what happens: the record is the same to the byte, and so is the whole drill', () => {
  fc.assert(
    fc.property(
      randomActs(40, 300),
      fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 9 }),
      (acts, looks) => {
        const [silent, sounding] = [fresh(), fresh()];
        const headset = new Headset(sounding);
        const shelter = new Shelter(sounding);
        let n = 0;
        for (const { gap_ms, control, value } of acts) {
          const until = silent.now_us + gap_ms * 1000;
          silent.advance(until);
          silent.act(control, value);
          for (let t = sounding.now_us; t < until; t += looks[n++ % looks.length]! * 1000) {
            sounding.advance(t);
            for (const v of headset.take()) if (!(Math.abs(v) <= 2)) throw new Error(`audio ${v}`);
            shelter.hear();
            broughtIn(sounding);
          }
          sounding.advance(until);
          sounding.act(control, value);
        }
        expect(JSON.stringify(sounding.record)).toBe(JSON.stringify(silent.record));
        expect(sounding.save()).toBe(silent.save());
      },
    ),
    { seed: 41, numRuns: 6 },
  );
});

/** Speaks for a second on the receiver's frequency and says how the receiver stood meanwhile. */
function speak(d: Drill): Listening {
  for (const [control, value] of Object.entries({
    'receiver.agc': 'slow',
    'sender.emission': 'A3E',
    'hand.talk': true,
  }))
    expect(d.act(control, value)).toBeUndefined();
  d.advance(d.now_us + 1_000_000);
  const listening = d.listening() as Listening;
  expect(d.station.state.wires.radiated_W).toBeGreaterThan(1);
  d.act('hand.talk', false);
  return listening;
}

test('while sending the set is muted; afterwards slow AGC lets the hiss come back at 25 dB a second', () => {
  const d = fresh();
  const headset = new Headset(d);
  d.act('receiver.agc', 'slow');
  for (const [control, value] of Object.entries({ 'sender.emission': 'A3E', 'hand.talk': true })) d.act(control, value);
  const loudness = (seconds: number) => {
    const out: number[] = [];
    for (let t = 0; t < seconds; t += 0.02) {
      d.advance(d.now_us + 20_000);
      out.push(...headset.take());
    }
    return power(Float64Array.from(out.slice(out.length / 2)));
  };
  loudness(0.4);
  expect(d.listening()?.deaf).toBe(true);
  const own = loudness(0.4);
  // Only the murmur of the own voice could be there, and nothing is said.
  expect(own).toBe(0);
  d.act('hand.talk', false);
  loudness(0.3);
  const early = dB(loudness(0.2));
  loudness(0.8);
  const later = dB(loudness(0.2));
  // From the middle of the second half of one piece to that of the other is a second.
  expect(Math.abs(later - early - 25 * (1 - 1 / 20))).toBeLessThan(2.5);
});

test('a second whip hears while the sender is on, the worse the nearer the two whips stand', () => {
  const duplex = (spacing_m: number) => {
    const d = fresh();
    for (const [control, value] of Object.entries({ 'aerial.second': true, 'aerial.spacing': spacing_m }))
      expect(d.act(control, value)).toBeUndefined();
    return speak(d);
  };
  expect(speak(fresh()).deaf).toBe(true);
  const [near, far] = [duplex(3), duplex(30)];
  expect(near.deaf).toBe(false);
  expect(near.desensed_dB).toBeGreaterThan(0);
  // Near field or not, the box takes 1/d: 20 dB for ten times the distance.
  expect(near.desensed_dB - far.desensed_dB).toBeCloseTo(20, 0);
});
