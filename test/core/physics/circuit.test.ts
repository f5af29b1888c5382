import { describe, expect, it } from 'vitest';
import { Paths } from '../../../src/core/ether/paths.ts';
import { normal, streamOf } from '../../../src/core/kernel/dice.ts';
import {
  type Circuit,
  eastOf,
  ladder_MHz,
  oneGround,
  REQUIRED_CN0_dBHz,
  radiatedBy,
  reachChart,
  STANDARD_FIT,
  skyFieldOf,
} from '../../../src/core/physics/circuit.ts';
import { grounds } from '../../../src/core/physics/ground-wave/ground.ts';
import { distance_km } from '../../../src/core/physics/sky-wave/geometry.ts';
import { skyPath, theatreSounder } from '../../../src/core/physics/sky-wave/path.ts';
import { converterAtRest, converterRun } from '../../../src/core/samples/converter.ts';
import { fskAtRest, fskRun } from '../../../src/core/samples/fsk.ts';
import { selectorAtRest, selectorRun } from '../../../src/core/telegraphy/selector.ts';
import { codesEdges } from '../../../src/core/telegraphy/startstop.ts';

const AT = [52, 10] as const;
const over = (km: number, more: Partial<Circuit> = {}): Circuit => ({
  from: AT,
  to: eastOf(AT, km),
  sections: oneGround(grounds.average, km),
  month: 10,
  R12: 60,
  noise: 'rural',
  power_W: 120,
  ...more,
});
const best = (c: Circuit, f: readonly number[]) =>
  reachChart(c, f).cells.map((row) => Math.max(...row.map((x) => x.reliability)));

describe('reach of a vehicle whip', () => {
  // Common practice: about 100 W on a short whip reaches about 80 km by ground wave whatever the hour, and by sky wave over 1,600 km at times.
  it('is sure at every hour at 30 km on a low frequency, and by ground wave', () => {
    const { cells } = reachChart(over(30), [2.8]);
    for (const [cell] of cells) expect(cell).toMatchObject({ by: 'ground' });
    for (const [cell] of cells) expect(cell!.reliability).toBeGreaterThan(0.95);
  });
  it('falls with distance while the ground wave carries it', () => {
    const at = [10, 20, 40, 80, 160].map((km) => reachChart(over(km), [3]).cells[12]![0]!.reliability);
    for (const [i, r] of at.entries()) if (i > 0) expect(r).toBeLessThanOrEqual(at[i - 1]! + 1e-12);
  });
  it('goes farther over sea than over average ground', () => {
    const land = reachChart(over(150), [4]).cells[12]![0]!;
    const sea = reachChart(over(150, { sections: oneGround(grounds.sea, 150) }), [4]).cells[12]![0]!;
    expect(sea.reliability).toBeGreaterThan(0.95);
    expect(sea.reliability).toBeGreaterThan(land.reliability + 0.3);
  });
  it('has 1,600 km by sky wave at some hours and frequencies, by day higher ones than by night', () => {
    const f = ladder_MHz(2, 17, 20);
    const { cells } = reachChart(over(1600), f);
    const choice = (hour: number) => {
      const row = cells[hour]!.map((c) => c.reliability);
      return f[row.indexOf(Math.max(...row))]!;
    };
    expect(Math.max(...best(over(1600), f))).toBeGreaterThan(0.5);
    expect(cells.flat().some((c) => c.by === 'sky' && c.reliability > 0.5)).toBe(true);
    expect(choice(12)).toBeGreaterThan(1.4 * choice(3));
  });
  it('gives chances between 0 and 1, more with more power, less in a city', () => {
    const f = ladder_MHz(1.8, 17, 12);
    const [some, more, city] = [over(300), over(300, { power_W: 1000 }), over(300, { noise: 'city' })].map((c) =>
      reachChart(c, f).cells.flat(),
    );
    for (const [i, c] of some!.entries()) {
      expect(c.reliability >= 0 && c.reliability <= 1).toBe(true);
      expect(more![i]!.reliability).toBeGreaterThanOrEqual(c.reliability);
      expect(city![i]!.reliability).toBeLessThanOrEqual(c.reliability);
    }
  });
  it('radiates nothing where the whip is out of range, and loses the sky where the maps end', () => {
    const chart = reachChart(over(30), [1.5, 29]);
    expect(chart.radiated_W[1]).toBe(0);
    expect(chart.cells[0]![1]).toEqual({ reliability: 0, by: null, margin_dB: null });
    const away = reachChart({ ...over(500), from: [10, 100], to: [12, 101] }, [5]);
    expect(away.MUF_MHz).toEqual(new Array(24).fill(null));
  });
  it('radiates less low down, where the whip is short: 15 W or less of 120 at 2 MHz', () => {
    expect(radiatedBy(STANDARD_FIT, 2, 120)).toBeLessThan(15);
    expect(radiatedBy(STANDARD_FIT, 2, 120)).toBeLessThan(radiatedBy(STANDARD_FIT, 8, 120));
  });
});

describe('against the ether of the drill', () => {
  it('has the sky wave that the ether has, to 0.01 dB', () => {
    const route = [{ ground: 'average', km: 400 }];
    const paths = new Paths({ month: 10, utc0_h: 9, at: AT, R12: 60, noise: 'rural' });
    const to = eastOf(AT, 400);
    const [a, b] = [AT, to].map(([lat, lng]) => ({ lat: lat!, lng: lng! }));
    const conditions = { month: 10, hour_UT: 9, R12: 60, reference: false };
    const path = skyPath(a!, b!, distance_km(a!, b!), conditions, theatreSounder);
    for (const f of [3, 5, 8]) {
      const { sky_dBuV } = paths.fields(route, f * 1e6, 0);
      expect(skyFieldOf(path, f, 1000)).toBeCloseTo(sky_dBuV, 2);
    }
  });
});

describe('required carrier over noise', () => {
  it('gives about one character in a hundred wrong by the terminal unit on samples', () => {
    const rate = 1200;
    const tones = { shift: 400, sense: 'mark low' as const };
    const codes = Array.from({ length: 3000 }, (_, i) => (i * 7919 + (i >> 3)) % 32);
    const { edges, end_us } = codesEdges(codes, 1e6, 50, 1.5);
    const count = Math.ceil(((end_us + 1e6) * rate) / 1e6);
    const { re, im } = fskRun(fskAtRest(), edges, count, rate, tones);
    const amplitude = 10 ** (REQUIRED_CN0_dBHz / 20);
    const sigma = Math.sqrt(rate / 2);
    for (let i = 0; i < count; i++) {
      re[i] = re[i]! * amplitude + sigma * normal(1, streamOf('cn0'), 2 * i);
      im[i] = im[i]! * amplitude + sigma * normal(1, streamOf('cn0'), 2 * i + 1);
    }
    const run = converterRun(converterAtRest(), re, im, rate, { ...tones, hold: true });
    const { chars } = selectorRun(selectorAtRest(), run.edges, end_us + 1e6, { baud: 50 });
    const wrong = codes.filter((code, i) => {
      const due_us = 1e6 + i * 150_000 + 14_500;
      return chars.find((c) => Math.abs(c.start_us - due_us) < 20_000)?.code !== code;
    });
    expect(wrong.length / codes.length).toBeGreaterThan(0.003);
    expect(wrong.length / codes.length).toBeLessThan(0.03);
  });
});
