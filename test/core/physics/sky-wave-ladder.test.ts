/**
 * test/vectors/p533-worked.jsonl: ten rows of the P.533-14 reference worked step by step by an independent program with the
 * P.1239 theatre table interpolated by cubics. Every step is compared: 1e-4, kilometres 1e-3.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { diurnalExponent, penetration } from '../../../src/core/physics/sky-wave/absorption.ts';
import { screening, takesPart } from '../../../src/core/physics/sky-wave/field.ts';
import { alongPath, distance_km, longestHop_km, type Place } from '../../../src/core/physics/sky-wave/geometry.ts';
import { magneticField } from '../../../src/core/physics/sky-wave/magnetic-field.ts';
import { dmax_km } from '../../../src/core/physics/sky-wave/muf.ts';
import { type ControlPoint, type SkyPath, type Sounder, skyPath } from '../../../src/core/physics/sky-wave/path.ts';
import { skyField } from '../../../src/core/physics/sky-wave/sky-wave.ts';
import { sunAt } from '../../../src/core/physics/sky-wave/sun.ts';
import { num, rowsOf } from './csv.ts';

type Numbers = Record<string, number>;
interface Worked {
  csv_line: number;
  tx: [number, number];
  rx: [number, number];
  R12: number;
  month: number;
  H: number;
  f: number;
  D: number;
  t_sun: number;
  mid: Numbers;
  T1000?: Numbers;
  R1000?: Numbers;
  x: number;
  B: number;
  dmax_raw: number;
  dmax: number;
  hr: number;
  nF: number;
  nE: number;
  maxhop_F: number;
  muf_E: Numbers;
  muf_F2: Numbers;
  BMUF: number;
  OPMUF: number;
  local_hour: number;
  screen: Record<string, { hm: number; fs: number; used: boolean }>;
  penetration_of: string;
  pen: Numbers[];
  modes: (Numbers & { name: string })[];
  E: number;
  Pr: number;
  dominant: string;
}

const cases: Worked[] = readFileSync(new URL('../../vectors/p533-worked.jsonl', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line));

const table = new Map(
  rowsOf('fof2-table.csv').map((row) => [`${row['lat']} ${row['lng']} ${row['month']} ${row['hour_UTC']}`, row]),
);

/** Lagrange through four nodes, written out from the definition. */
function nodes(position: number, first: number, step: number): [number, number][] {
  const u = (position - first) / step;
  const i = Math.max(0, Math.min(5, Math.floor(u) - 1));
  return [0, 1, 2, 3].map((k) => {
    const w = [0, 1, 2, 3].filter((m) => m !== k).reduce((p, m) => (p * (u - i - m)) / (k - m), 1);
    return [first + step * (i + k), w];
  });
}

/** The table itself, not the compact map, so that the steps can be compared to 1e-4. */
const tableSounder: Sounder = ({ lat, lng }, { month, hour_UT, R12 }) => {
  let [foF2_MHz, M3000F2] = [0, 0];
  for (const [nodeLat, a] of nodes(lat, 36, 4)) {
    for (const [nodeLng, b] of nodes(lng, -10, 5)) {
      const row = table.get(`${nodeLat} ${nodeLng} ${month} ${hour_UT % 24}`)!;
      const at = (low: string, high: string) => num(row, low) + ((num(row, high) - num(row, low)) * R12) / 100;
      foF2_MHz += a * b * at('foF2_R0', 'foF2_R100');
      M3000F2 += a * b * at('M3000_R0', 'M3000_R100');
    }
  }
  return { foF2_MHz, M3000F2 };
};

function pathOf(one: Worked): SkyPath {
  const from = { lat: one.tx[0], lng: one.tx[1] };
  const to = { lat: one.rx[0], lng: one.rx[1] };
  const conditions = { month: one.month, hour_UT: one.H, R12: one.R12, reference: true };
  return skyPath(from, to, distance_km(from, to), conditions, tableSounder);
}

/** Compares by name, so that a failure says which step. */
function same(actual: Numbers, expected: Numbers, tolerance = 1.01e-4): void {
  for (const [name, value] of Object.entries(actual)) {
    expect(expected[name], name).toBeDefined();
    expect(Math.abs(value - expected[name]!), `${name}: ${value} against ${expected[name]}`).toBeLessThan(tolerance);
  }
}

function pointNumbers({ place, sun, foE_MHz, fL_MHz, layer }: ControlPoint): Numbers {
  const low = magneticField(place, 100);
  return {
    lat: place.lat,
    lng: place.lng,
    decl: sun.declination_deg,
    chi: sun.chi_deg,
    rise: sun.rise_h,
    set: sun.set_h,
    noon: sun.noon_h,
    foF2: layer.foF2,
    M: layer.M,
    foE: foE_MHz,
    dip100: low.dip_deg,
    fH100: low.gyro_MHz,
    fH300: layer.fH300,
    fL: fL_MHz,
  };
}

describe.each(cases)('P.533 worked case, line $csv_line', (one) => {
  const path = pathOf(one);
  it('places its control points with sun, layers and field', () => {
    expect(Math.abs(path.D_km - one.D)).toBeLessThan(1e-3);
    same(pointNumbers(path.middle), one.mid);
    const [, T1, R1] = path.modes[0]!.over;
    expect(T1 !== undefined).toBe(one.D > 2000);
    if (T1 && R1) {
      same(pointNumbers(T1), one.T1000!);
      same(pointNumbers(R1), one.R1000!);
    }
  });
  it('finds heights, orders and MUFs', () => {
    const { layer } = path.middle;
    same({ x: layer.x, B: layer.B }, one as unknown as Numbers);
    const heights = { dmax_raw: layer.dmRaw, dmax: dmax_km(layer), hr: layer.hr, maxhop_F: longestHop_km(layer.hr) };
    same(heights, one as unknown as Numbers, 1.01e-3);
    const mufs = (kind: string) =>
      Object.fromEntries(path.modes.filter((m) => m.layer === kind).map((m) => [`${m.hops}`, m.muf_MHz]));
    expect(Object.keys(mufs('E'))[0]).toBe(`${one.nE}`);
    expect(Object.keys(mufs('F2'))[0]).toBe(`${one.nF}`);
    same(mufs('E'), one.muf_E);
    same(mufs('F2'), one.muf_F2);
    same({ BMUF: path.basicMuf_MHz, OPMUF: path.operationalMuf_MHz }, one as unknown as Numbers);
    expect(path.localHour).toBe(one.local_hour);
  });
  it('screens the F2 modes that the E layer hides', () => {
    for (const mode of path.modes.filter(({ layer }) => layer === 'F2')) {
      const expected = one.screen[`${mode.hops}`]!;
      const { mirror_km, screened_MHz } = screening(path, mode, one.f);
      expect(Math.abs(mirror_km - expected.hm)).toBeLessThan(1.01e-3);
      expect(Math.abs(screened_MHz - expected.fs)).toBeLessThan(1.01e-4);
      expect(takesPart(path, mode, one.f)).toBe(expected.used);
    }
  });
  it('absorbs at each crossing of 90 km', () => {
    const mode = path.modes.find(({ name }) => name === one.penetration_of)!;
    const fv = one.modes.find(({ name }) => name === one.penetration_of)!['fv']!;
    expect(mode.crossings.length).toBe(one.pen.length);
    for (const [i, crossing] of mode.crossings.entries()) {
      const expected = one.pen[i]!;
      const { place, foE_MHz, k } = crossing;
      const sun = sunAt(place.lat, place.lng, one.month, one.t_sun, true);
      const p = diurnalExponent(place, magneticField(place, 100).dip_deg, one.month);
      const phi = penetration(fv / foE_MHz);
      same({ lat: place.lat, lng: place.lng, foE: foE_MHz, k, phi, p, chi: sun.chi_deg }, expected, 1.5e-4);
      const s: Place = alongPath(
        { lat: one.tx[0], lng: one.tx[1] },
        { lat: one.rx[0], lng: one.rx[1] },
        one.D,
        expected['s_km']! / one.D,
      );
      expect(distance_km(place, s)).toBeLessThan(2e-3);
    }
  });
  it('adds up every loss of every mode', () => {
    const found = skyField(path, one.f);
    expect(found.modes.map(({ name }) => name)).toEqual(one.modes.map(({ name }) => name));
    for (const [i, mode] of found.modes.entries()) {
      const { name, ...expected } = one.modes[i]!;
      same({ slant: mode.slant_km }, expected as Numbers, 1.01e-3);
      same(
        {
          muf: mode.muf_MHz,
          el: mode.elevation_deg,
          i110: path.modes.find((m) => m.name === name)!.incidence_deg,
          fv: mode.fv_MHz,
          AT: mode.AT,
          fL: mode.fL_MHz,
          Li: mode.absorption_dB,
          Lm: mode.aboveMuf_dB,
          Lg: mode.ground_dB,
          Lh: mode.highLatitude_dB,
          Lb: mode.loss_dB,
          E: mode.E_dBuV_per_m,
        },
        expected as Numbers,
        1.5e-4,
      );
    }
    same({ E: found.E_dBuV_per_m, Pr: found.Pr_dBW }, one as unknown as Numbers);
    expect(found.mode).toBe(one.dominant);
  });
});
