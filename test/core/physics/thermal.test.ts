import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  airFlow,
  type Cooling,
  coolingAfter,
  secondsUntil_C,
  settledTemperature_C,
  temperatureAfter_C,
  thermalTau_s,
} from '../../../src/core/physics/thermal.ts';

const body = { capacity_J_K: 3000, still_W_K: 1.5, air_W_K: 6 };
const clean: Cooling = { fan: true, filter: 'fitted', dirt: 0, dust: 0 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyHeating = fc.record({ ambient_C: number(-40, 50), power_W: number(0, 500), airFlow: number(0, 1) });

describe('heating', () => {
  it('covers 63.2 % of the way in one time constant (Newton cooling: 1 - 1/e)', () => {
    const heating = { ambient_C: 20, power_W: 150, airFlow: 1 };
    expect(settledTemperature_C(body, heating)).toBeCloseTo(40, 12);
    expect(thermalTau_s(body, heating)).toBeCloseTo(400, 12);
    expect(temperatureAfter_C(body, heating, 20, 400)).toBeCloseTo(20 + 20 * 0.6321205588, 8);
  });

  it('in two parts ends where one ends, and tends to the settled value', () => {
    fc.assert(
      fc.property(anyHeating, number(-40, 150), number(0, 5000), number(0, 5000), (heating, start, a, b) => {
        const parts = temperatureAfter_C(body, heating, temperatureAfter_C(body, heating, start, a), b);
        expect(parts).toBeCloseTo(temperatureAfter_C(body, heating, start, a + b), 8);
        expect(temperatureAfter_C(body, heating, start, 1e6)).toBeCloseTo(settledTemperature_C(body, heating), 8);
      }),
      { seed: 41 },
    );
  });

  it('conserves energy: heat put in is stored or carried away (closed integral of the exponential)', () => {
    fc.assert(
      fc.property(anyHeating, number(-40, 150), number(1, 5000), (heating, start, seconds) => {
        const settled = settledTemperature_C(body, heating);
        const end = temperatureAfter_C(body, heating, start, seconds);
        const tau = thermalTau_s(body, heating);
        const carried = (body.capacity_J_K / tau) * ((settled - heating.ambient_C) * seconds + tau * (start - end));
        const stored = body.capacity_J_K * (end - start);
        expect(Math.abs(heating.power_W * seconds - carried - stored)).toBeLessThan(1e-3);
      }),
      { seed: 42 },
    );
  });

  it('tells when a trip temperature is reached, or that it never is', () => {
    fc.assert(
      fc.property(anyHeating, number(-40, 150), number(-40, 150), (heating, start, target) => {
        const seconds = secondsUntil_C(body, heating, start, target);
        if (seconds === Number.POSITIVE_INFINITY) return;
        expect(temperatureAfter_C(body, heating, start, seconds)).toBeCloseTo(target, 6);
      }),
      { seed: 43 },
    );
    expect(secondsUntil_C(body, { ambient_C: 20, power_W: 150, airFlow: 1 }, 20, 41)).toBe(Number.POSITIVE_INFINITY);
    expect(secondsUntil_C(body, { ambient_C: 20, power_W: 150, airFlow: 1 }, 30, 30)).toBe(0);
  });

  it('refuses a body that nothing cools', () => {
    const sealed = { ...body, still_W_K: 0 };
    expect(() => settledTemperature_C(sealed, { ambient_C: 20, power_W: 1, airFlow: 0 })).toThrow(RangeError);
    expect(() => temperatureAfter_C(body, { ambient_C: 20, power_W: 1, airFlow: 0 }, 20, -1)).toThrow(RangeError);
  });
});

describe('cooling', () => {
  it('lets air through by fan, filter and dust', () => {
    expect(airFlow(clean)).toBe(1);
    expect(airFlow({ ...clean, fan: false })).toBe(0);
    expect(airFlow({ ...clean, dirt: 1 })).toBeCloseTo(0.1, 12);
    expect(airFlow({ ...clean, filter: 'missing' })).toBeLessThan(0.5);
    expect(airFlow({ ...clean, dust: 1 })).toBeCloseTo(0.4, 12);
  });

  it('a dirty filter is hotter than a clean one, and dirt only adds heat', () => {
    fc.assert(
      fc.property(number(0, 1), number(0, 1), number(1, 500), (a, b, power_W) => {
        const at = (dirt: number) =>
          settledTemperature_C(body, { ambient_C: 20, power_W, airFlow: airFlow({ ...clean, dirt }) });
        expect(at(Math.max(a, b))).toBeGreaterThanOrEqual(at(Math.min(a, b)));
      }),
      { seed: 44 },
    );
  });

  it('fills the filter when it is fitted, and the inside when it is missing, for good', () => {
    const fitted = coolingAfter(clean, 18, 1);
    expect(fitted).toEqual({ ...clean, dirt: 0.5 });
    const bare = coolingAfter({ ...clean, filter: 'missing' }, 4, 1);
    expect(bare.dust).toBeCloseTo(0.5, 12);
    expect(airFlow({ ...bare, filter: 'fitted', dirt: 0 })).toBeLessThan(1);
    expect(coolingAfter({ ...clean, fan: false }, 10, 1)).toEqual({ ...clean, fan: false });
    expect(() => coolingAfter(clean, -1, 1)).toThrow(RangeError);
  });
});
