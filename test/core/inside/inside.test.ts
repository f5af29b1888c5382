/** The look inside each link: true to the drill's own numbers, and without any effect on it. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Drill, Inside, LinkName } from '../../../src/core/drill.ts';
import { LINKS } from '../../../src/core/inside/links.ts';
import { converterAtRest, converterDelay_us, converterRun } from '../../../src/core/samples/converter.ts';
import { fskAtRest, fskRun } from '../../../src/core/samples/fsk.ts';
import { again, drillWhen, receiving, sending, spokenTo } from './stages.ts';

const look = <L extends LinkName>(d: Drill, link: L, start: number | null = null) =>
  d.inside(link, start) as Extract<Inside, { link: L }>;

let out: Drill;
let back: Drill;
let voice: Drill;
beforeAll(() => {
  out = drillWhen(sending);
  back = drillWhen(receiving);
  voice = drillWhen(spokenTo);
}, 60_000);

const finite = (x: unknown): boolean =>
  typeof x === 'number' ? Number.isFinite(x) : x === null || typeof x !== 'object' || Object.values(x).every(finite);

describe('looking', () => {
  it('gives finite numbers for every link, cold or at work', () => {
    for (const d of [drillWhen(() => true), out, back, voice])
      for (const link of LINKS) expect(finite(d.inside(link)), link).toBe(true);
  });

  it('changes nothing: the drill stands as before and goes on to the same record', () => {
    for (const d of [out, back]) {
      const [seen, unseen] = [again(d), again(d)];
      const before = seen.save();
      for (const link of LINKS) {
        seen.inside(link);
        seen.inside(link, look(seen, 'print').window.earlier[0] ?? null);
      }
      expect(seen.save()).toBe(before);
      for (let i = 0; i < 20; i++) {
        for (const each of [seen, unseen]) each.advance(each.now_us + 130_000);
        for (const link of LINKS) seen.inside(link);
      }
      expect(seen.save()).toBe(unseen.save());
    }
  }, 60_000);
});

describe('what goes out', () => {
  it('is one letter all the way: the tape sends it, the far printer reads the same', () => {
    const d = again(out);
    for (let i = 0; i < 40; i++) {
      d.advance(d.now_us + 70_000);
      const own = look(d, 'keys').letters.map((l) => l.code);
      const there = look(d, 'print').letters.map((l) => l.code);
      expect(there.length).toBeGreaterThan(2);
      expect(own.slice(-there.length)).toEqual(there);
    }
    expect(look(d, 'print')).toMatchObject({ who: 'QV7K', isOwn: false });
  });

  it('loses no watt between forward, back, coil, earth and whip', () => {
    const { watts, radiated_W } = look(out, 'sender');
    const { forward, back: reflected, coil, ground, radiated } = watts!;
    expect(reflected + coil + ground + radiated).toBeCloseTo(forward, 6);
    expect(radiated).toBeCloseTo(radiated_W, 3);
    const { foot } = look(out, 'whip');
    expect(foot!.amps * foot!.amps * foot!.R_ohm).toBeCloseTo(radiated_W, 3);
  });

  it('occupies about what ITU-R SM.1138 says for 50 Bd and 400 Hz: 2M + 2DK = 530 Hz', () => {
    const s = look(out, 'sender');
    expect(s).toMatchObject({ needs_Hz: 530, designator: '530HF1B' });
    expect(Math.abs(s.occupied_Hz! - 530)).toBeLessThan(60);
  });

  it('has its two tones a shift apart in the spectrum', () => {
    const { dB, from_Hz, to_Hz } = look(out, 'sender').spectrum!;
    const at = (k: number) => from_Hz + ((to_Hz - from_Hz) * k) / (dB.length - 1);
    const peak = (low: number, high: number) =>
      dB
        .map((v, k) => [v, at(k)] as const)
        .filter(([, f]) => f > low && f < high)
        .reduce((a, b) => (b[0] > a[0] ? b : a))[1];
    expect(peak(0, 500) - peak(-500, 0)).toBeCloseTo(400, -1);
  });

  it('arrives as the far ear has it, the ground wave falling along the way to it', () => {
    const e = look(out, 'ether');
    expect(e.field_dBuV! - e.noise_dBuV).toBeCloseTo(e.cn0_dB!, 9);
    expect(e.ground_dBuV[0]!).toBeGreaterThan(e.ground_dBuV.at(-1)! + 20);
    // Here the sky wave is 58 dB weaker: the field is the ground wave.
    expect(e.ground_dBuV.at(-1)!).toBeCloseTo(e.field_dBuV!, 1);
  });
});

describe('what comes in', () => {
  it('prints next what the printer then prints', () => {
    const d = again(back);
    const { window } = look(d, 'terminal unit');
    const before = d.record.lines.length;
    d.advance(window.letter!.start_us + 400_000);
    const printed = d.record.lines.slice(before).flatMap((l) => (l.k === 'print' && l.at === 'own' ? [l.code] : []));
    expect(printed).toContain(window.letter!.code);
  });

  it('reads units as the letter has them, each surer than a coin', () => {
    const { units, window } = look(back, 'terminal unit');
    expect(units.map((u) => u.mark)).toEqual([0, 1, 2, 3, 4].map((k) => ((window.letter!.code >> k) & 1) === 1));
    for (const u of units) {
      expect(u.surely).toBeGreaterThan(0.3);
      expect(u.value > 0).toBe(u.mark);
    }
  });

  it('shows whose voice is there, and no letter', () => {
    expect(look(voice, 'keys')).toMatchObject({ who: 'QV7K', by: 'voice', window: { letter: null } });
    expect(look(voice, 'keys').words.length).toBeGreaterThan(0);
  });
});

describe('filters', () => {
  it('hold the decision back by the delay that is taken off: its crossings stand at the edges within 1.5 ms', () => {
    const rate = 2400;
    const tones = { shift: 400, sense: 'mark low' as const };
    const edges = Array.from({ length: 20 }, (_, i) => ({ t_us: 400_000 + 60_000 * i, mark: i % 2 === 1 }));
    const { re, im } = fskRun(fskAtRest(), edges, 4000, rate, tones);
    const found = converterRun(converterAtRest(), re, im, rate, { ...tones, hold: false }).edges;
    const { decided } = converterDelay_us(rate, tones);
    for (const [i, e] of edges.entries()) expect(Math.abs(found[i]!.t_us - decided - e.t_us)).toBeLessThan(1500);
  });
});
