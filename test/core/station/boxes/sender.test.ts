import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CarrierStep, Emission } from '../../../../src/core/signals.ts';
import { standardMatch, travelTime_us, tuningAt } from '../../../../src/core/station/boxes/sender-match.ts';
import { PowerRig } from './power-rig.ts';

const power = (steps: readonly CarrierStep[], t_us: number): number =>
  steps.reduce((p, s) => (s.t_us <= t_us ? s.power_W : p), 0);
const frequency = (steps: readonly CarrierStep[], t_us: number): number =>
  steps.reduce((f, s) => (s.t_us <= t_us ? s.f_Hz : f), 0);

describe('who radiates', () => {
  // The table of station.md: lever and emission, the same for both operators.
  type Row = [Emission, 'OUT' | 'STEADY' | 'IN', talk: boolean, key: boolean, radiates: boolean, shifted: boolean];
  const rows: Row[] = [];
  for (const lever of ['OUT', 'STEADY', 'IN'] as const)
    for (const talk of [false, true])
      for (const key of [false, true])
        rows.push(
          ['N0N', lever, talk, key, false, false],
          ['A1A', lever, talk, key, key, false],
          ['A3E', lever, talk, key, talk, false],
          ['F1B', lever, talk, key, lever !== 'IN', lever !== 'IN'],
          ['A3E+F1B', lever, talk, key, lever === 'OUT' || talk, lever === 'OUT'],
        );
  it.each(rows)('%s at %s, talking %s, key %s: %s', (emission, lever, talking, key, radiates, shifted) => {
    const r = new PowerRig({ emission }).hand({ lever, talking, handKey: [{ t_us: 0, mark: key }] }).run(0.1);
    expect(r.w.radiated_W > 0).toBe(radiates);
    expect(r.w.relay).toBe(radiates ? 'sender' : 'receiver');
    expect(power(r.w.radiation.steps, r.now_us)).toBeCloseTo(r.w.radiated_W, 6);
    expect(r.see('sender.radiating')).toBe(radiates);
    // Voice and print together are plain voice where the loop does not shift the carrier.
    expect(r.w.radiation.emission).toBe(emission === 'A3E+F1B' && !shifted ? 'A3E' : emission);
    // Steady mark lies half the shift under the carrier set, as mark is low.
    if (radiates) expect(frequency(r.w.radiation.steps, r.now_us)).toBe(shifted ? 3_619_800 : 3_620_000);
  });

  it('puts each edge of the loop on the air, planned ones too, in the sense that is set', () => {
    for (const markLow of [true, false]) {
      const r = new PowerRig({ emission: 'F1B' });
      const t = r.now_us;
      const keyed = [
        { t_us: t + 20_000, mark: false },
        { t_us: t + 40_000, mark: true },
      ];
      r.hand({ lever: 'OUT', keyed, markLow, shift_Hz: 850 });
      const at = (ms: number) => frequency(r.w.radiation.steps, t + ms * 1000) - 3_620_000;
      const mark = markLow ? -425 : 425;
      expect([at(10), at(20), at(39), at(40)]).toEqual([mark, -mark, -mark, mark]);
    }
  });

  it('keeps what was radiated and plans the rest anew', () => {
    const r = new PowerRig({ emission: 'F1B' });
    const t = r.now_us;
    r.hand({
      lever: 'OUT',
      keyed: [
        { t_us: t + 20_000, mark: false },
        { t_us: t + 60_000, mark: true },
      ],
    }).run(0.03);
    r.hand({
      keyed: [
        { t_us: t + 20_000, mark: false },
        { t_us: t + 45_000, mark: true },
      ],
    });
    const at = (ms: number) => frequency(r.w.radiation.steps, t + ms * 1000);
    expect([at(10), at(25), at(44), at(45)]).toEqual([3_619_800, 3_620_200, 3_620_200, 3_619_800]);
    const times = r.w.radiation.steps.map((s) => s.t_us);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(new Set(times).size).toBe(times.length);
  });

  it('carries the words of an open microphone, and loses a word whose head came before the carrier', () => {
    const r = new PowerRig({ emission: 'A3E' });
    const t = r.now_us;
    const word = (word: string, from: number) => ({
      t0_us: t + from,
      t1_us: t + from + 400_000,
      word,
      by: 'voice' as const,
    });
    r.hand({ talking: true, words: [word('LOST', -200_000), word('HELLO', 0), word('OUT', 400_000)] });
    expect(r.w.radiation.words.map((x) => x.word)).toEqual(['HELLO', 'OUT']);
    r.run(0.5).hand({ talking: false, words: [word('HELLO', 0)] });
    expect(r.w.radiation.words.map((x) => x.word)).toEqual(['HELLO']);
  });

  it('says nothing by voice in print alone', () => {
    const r = new PowerRig({ emission: 'F1B' });
    r.hand({ talking: true, words: [{ t0_us: r.now_us, t1_us: r.now_us + 1e6, word: 'HELLO', by: 'voice' }] });
    expect(r.w.radiation.words).toEqual([]);
  });

  it('carries voice and print at once at OUT', () => {
    const r = new PowerRig({ emission: 'A3E+F1B' });
    r.hand({
      lever: 'OUT',
      talking: true,
      keyed: [{ t_us: r.now_us, mark: false }],
      words: [{ t0_us: r.now_us, t1_us: r.now_us + 400_000, word: 'HELLO', by: 'voice' }],
    });
    expect(frequency(r.w.radiation.steps, r.now_us)).toBe(3_620_200);
    expect(r.w.radiation.words.map((x) => x.word)).toEqual(['HELLO']);
  });

  it('holds the relay for 100 ms after the last carrier', () => {
    const r = new PowerRig({ emission: 'A3E' }).hand({ talking: true }).run(1).hand({ talking: false });
    expect(r.w.relay).toBe('sender');
    expect(r.run(0.099).w.relay).toBe('sender');
    expect(r.run(0.001).w.relay).toBe('receiver');
  });

  it('follows a planned hand key edge at its own instant', () => {
    const r = new PowerRig({ emission: 'A1A' });
    const t = r.now_us;
    r.hand({
      handKey: [
        { t_us: t + 333_000, mark: true },
        { t_us: t + 400_000, mark: false },
      ],
    });
    expect(r.run(0.332).w.radiated_W).toBe(0);
    expect(r.run(0.001).w.radiated_W).toBeGreaterThan(0);
    expect(r.run(0.067).w.radiated_W).toBe(0);
  });

  it('stops a bare carrier after five seconds, and wants the cage open', () => {
    const r = new PowerRig({ emission: 'N0N' });
    expect(r.turn('sender.carrier', true)).toMatch(/cage/);
    r.do('sender.cage', true).do('sender.carrier', true);
    expect(r.w.radiated_W).toBeGreaterThan(0);
    expect(r.run(4.9).w.radiated_W).toBeGreaterThan(0);
    expect(r.run(0.2).w.radiated_W).toBe(0);
    r.do('sender.carrier', false).do('sender.carrier', true).do('sender.cage', false);
    expect(r.w.radiated_W).toBe(0);
  });
});

describe('readiness', () => {
  it('takes 45 s of heat before anything radiates', () => {
    const r = new PowerRig({ emission: 'A3E' }, { hot: false }).hand({ talking: true });
    expect(r.run(41).w.radiated_W).toBe(0);
    expect(r.see('sender.ready')).toBe(false);
    expect(r.run(1).w.radiated_W).toBeGreaterThan(0);
    expect(r.see('sender.ready')).toBe(true);
  });

  it.each(['off', 'heat', 'wait'])('radiates nothing at %s', (readiness) => {
    const r = new PowerRig({ emission: 'A3E', readiness }).run(60).hand({ talking: true }).run(1);
    expect(r.w.armed).toBe(false);
    expect(r.w.radiation.steps).toEqual([]);
  });

  it('wants 3 s of drive between heat and send, none after wait', () => {
    const r = new PowerRig({ readiness: 'heat' }).do('sender.readiness', 'send');
    expect(r.w.armed).toBe(false);
    expect(r.run(3).w.armed).toBe(true);
    const waited = new PowerRig({ readiness: 'wait' }).do('sender.readiness', 'send');
    expect(waited.w.armed).toBe(true);
  });

  it('hurts its valves when they go cold at once, not after 30 s', () => {
    const sudden = new PowerRig().do('sender.readiness', 'off');
    expect(sudden.modes('sender')).toContain('hotOff');
    const breaker = new PowerRig().do('feed.sender', false);
    expect(breaker.modes('sender')).toContain('hotOff');
    const cooled = new PowerRig().do('sender.readiness', 'wait').run(30).do('sender.readiness', 'off');
    expect(cooled.modes('sender')).not.toContain('hotOff');
    // Each time costs some of the output.
    sudden.do('sender.readiness', 'heat').run(46).do('sender.readiness', 'send').do('sender.emission', 'F1B').run(4);
    expect(sudden.w.forward_W).toBeCloseTo(114, 6);
  });
});

describe('match', () => {
  it('sends nearly nothing back from a stored match, everything without a whip', () => {
    const r = new PowerRig({ emission: 'F1B' });
    expect(r.w.forward_W).toBe(120);
    expect(r.w.reflected_W).toBeLessThan(0.01);
    const bare = new PowerRig({ emission: 'F1B' }, {}, { aerial: { controls: { guard: true } } });
    expect(bare.w.reflected_W).toBe(120);
    expect(bare.w.radiated_W).toBe(0);
    bare.run(3);
    expect(bare.modes('sender')).toContain('trippedBack');
  });

  it('never radiates more than goes forward less what comes back, whatever the knobs', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1800, max: 17_000, noNaN: true }),
        fc.double({ min: 0, max: 150, noNaN: true }),
        fc.double({ min: 0, max: 4000, noNaN: true }),
        fc.constantFrom('sender', 'whip'),
        fc.integer({ min: 0, max: 4 }),
        (frequency, coil, loading, side, sections) => {
          const r = new PowerRig(
            { emission: 'A3E', setting: 'hand', power: 'low' },
            {},
            { aerial: { controls: { sections } } },
          );
          for (const [k, v] of Object.entries({ frequency, coil, loading, side })) r.do(`sender.${k}`, v);
          r.hand({ talking: true });
          expect(r.w.forward_W).toBe(15);
          expect(r.w.reflected_W).toBeGreaterThanOrEqual(0);
          expect(r.w.radiated_W).toBeGreaterThanOrEqual(0);
          expect(r.w.radiated_W).toBeLessThanOrEqual(r.w.forward_W - r.w.reflected_W + 1e-4);
          expect(r.see('sender.back')).toBeCloseTo(r.w.reflected_W, 9);
        },
      ),
      { seed: 11, numRuns: 60 },
    );
  });

  it('reads more power back the farther the coil is off, and a dip in between', () => {
    const exact = standardMatch(3620)!;
    const r = new PowerRig({ emission: 'A3E', power: 'low' }).hand({ talking: true });
    const back = (coil: number) => r.do('sender.coil', coil).w.reflected_W;
    expect(back(exact.coil_uH - 2)).toBeGreaterThan(back(exact.coil_uH - 1));
    expect(back(exact.coil_uH + 2)).toBeGreaterThan(back(exact.coil_uH + 1));
    expect(back(exact.coil_uH)).toBeLessThan(0.1);
  });

  it('finds a match by itself from anywhere, within half a minute, on a carrier of 5 W', () => {
    for (const kHz of [2100, 5310, 9000, 14_200, 16_400]) {
      const r = new PowerRig({ setting: 'hand', frequency: kHz, coil: 80, loading: 2000 });
      r.push('sender.seek').run(1);
      expect(r.w.forward_W).toBe(5);
      expect(r.w.radiation.emission).toBe('N0N');
      expect(r.see('sender.motors')).toBe(true);
      r.run(29);
      expect([kHz, r.see('sender.seeking'), r.see('sender.motors')]).toEqual([kHz, 'found', false]);
      r.do('sender.emission', 'F1B');
      // Good is under 6 W back of 120 (table of values).
      expect(r.w.reflected_W).toBeLessThan(6);
    }
  });

  it('says in plain words what it is at', () => {
    const r = new PowerRig({ setting: 'hand', frequency: 5310, coil: 80, loading: 2000 }).push('sender.seek');
    const said = new Set<unknown>();
    for (let i = 0; i < 300; i++) said.add(r.run(0.1).see('sender.seeking'));
    const plain = ['idle', 'to start', 'coil', 'loading', 'fine match', 'found'];
    expect([...said].filter((word) => !plain.includes(String(word)))).toEqual([]);
    expect(said).toContain('fine match');
  });

  it('fails to find a match without a whip, and says so', () => {
    const r = new PowerRig({ setting: 'hand' }, {}, { aerial: { controls: {} } }).push('sender.seek').run(90);
    expect(r.see('sender.seeking')).toBe('failed');
    expect(r.w.radiated_W).toBe(0);
  });

  it('seeks only when it may send, and stops when it may not', () => {
    const why = (r: PowerRig) => r.turn('sender.seek', true);
    expect(why(new PowerRig({ readiness: 'wait' }))).toBe('readiness is not at send');
    expect(why(new PowerRig({}, { hot: false }))).toBe('the valves are not hot');
    const early = new PowerRig({ readiness: 'heat' }).do('sender.readiness', 'send').run(1);
    expect(why(early)).toBe('the drive comes up three seconds after readiness has left heat');
    expect(why(early.run(2.1))).toBeUndefined();
    const r = new PowerRig({ setting: 'hand' }).push('sender.seek').run(1).do('sender.readiness', 'wait');
    expect(r.see('sender.seeking')).toBe('failed');
    expect(r.run(1).see('sender.motors')).toBe(false);
  });

  it('finds a drifted stored match a little off, and keeps the better one', () => {
    const r = new PowerRig({ emission: 'F1B', power: 'low' }, { drift: 2 });
    const off = r.w.reflected_W;
    expect(off).toBeGreaterThan(0.75);
    r.push('sender.seek').run(20).push('sender.keep').do('sender.setting', '2').run(9).do('sender.setting', '1').run(9);
    expect(r.see('sender.kHz')).toBe('3620.0');
    expect(r.w.reflected_W).toBeLessThan(off / 4);
  });

  it('keeps only where a stored setting is chosen', () => {
    expect(new PowerRig({ setting: 'hand' }).turn('sender.keep', true)).toMatch(/stored setting/);
  });
});

describe('motors', () => {
  it('drive to a stored setting in up to 8 s and keep the sender silent meanwhile', () => {
    const r = new PowerRig({ emission: 'F1B' }).do('sender.setting', '4');
    expect(r.see('sender.motors')).toBe(true);
    expect(r.w.radiated_W).toBe(0);
    expect(r.turn('sender.coil', 3)).toMatch(/motors/);
    r.run(8);
    expect(r.see('sender.motors')).toBe(false);
    expect([r.see('sender.kHz'), r.w.sender_Hz, r.station.standing('sender.frequency')]).toEqual([
      '8000.0',
      8_000_000,
      8000,
    ]);
    expect(r.w.radiated_W).toBeGreaterThan(0);
    expect(r.w.reflected_W).toBeLessThan(0.1);
  });

  it('stay where an empty setting finds them', () => {
    const r = new PowerRig().do('sender.setting', '3').run(1);
    expect([r.see('sender.kHz'), r.see('sender.motors')]).toEqual(['3620.0', false]);
  });

  it('wait for supply and then go', () => {
    const r = new PowerRig({ readiness: 'off' }).do('sender.setting', '2').run(10);
    expect(r.see('sender.kHz')).toBe('3620.0');
    expect(r.do('sender.readiness', 'heat').run(10).see('sender.kHz')).toBe('5310.0');
  });

  it('stand at a place that depends on time alone', () => {
    const arb = fc.record({
      kHz: fc.double({ min: 1800, max: 17_000, noNaN: true }),
      coil_uH: fc.double({ min: 0, max: 150, noNaN: true }),
      loading_pF: fc.double({ min: 0, max: 4000, noNaN: true }),
      side: fc.constantFrom('sender' as const, 'whip' as const),
    });
    fc.assert(
      fc.property(arb, arb, fc.nat(8_000_000), (from, to, t) => {
        const whole = { from_us: 0, from, to };
        expect(travelTime_us(whole)).toBeLessThanOrEqual(8_000_001);
        expect(tuningAt(whole, travelTime_us(whole))).toEqual(to);
        const half = tuningAt(whole, t);
        const rest = tuningAt({ from_us: t, from: half, to }, t + 500_000);
        const straight = tuningAt(whole, t + 500_000);
        for (const k of ['kHz', 'coil_uH', 'loading_pF'] as const) expect(rest[k]).toBeCloseTo(straight[k], 4);
      }),
      { seed: 12, numRuns: 200 },
    );
  });
});

describe('trips and heat', () => {
  const mismatched = { emission: 'F1B', readiness: 'wait' };
  it('trips after 3 s of more than 25 W back at full, not before, not at low', () => {
    const r = new PowerRig(mismatched).do('sender.coil', 30).do('sender.readiness', 'send');
    expect(r.w.reflected_W).toBeGreaterThan(25);
    expect(r.run(2.9).see('sender.trip')).toBe(false);
    expect(r.run(0.2).see('sender.trip')).toBe(true);
    expect(r.w.radiated_W).toBe(0);
    r.do('sender.readiness', 'heat');
    expect(r.see('sender.trip')).toBe(false);
    const low = new PowerRig({ ...mismatched, power: 'low' })
      .do('sender.coil', 30)
      .do('sender.readiness', 'send')
      .run(20);
    expect(low.see('sender.trip')).toBe(false);
  });

  it('forgives a mismatch that is cured within 3 s', () => {
    const r = new PowerRig(mismatched).do('sender.coil', 30).do('sender.readiness', 'send').run(2);
    r.do('sender.setting', 'hand').do('sender.coil', standardMatch(3620)!.coil_uH).run(5);
    expect(r.see('sender.trip')).toBe(false);
    // The three seconds begin anew with the next mismatch.
    r.do('sender.coil', 30);
    expect(r.run(2.9).see('sender.trip')).toBe(false);
    expect(r.run(0.2).see('sender.trip')).toBe(true);
  });

  it.each([
    ['clean filter and fan', { fan: true, filter: true }, 'clean', false],
    ['dirty filter', { fan: true, filter: true }, 'dirty', true],
    ['no filter', { fan: true, filter: false }, 'clean', true],
    ['no fan', { fan: false, filter: true }, 'clean', true],
  ])('ten minutes of print with %s', (_name, controls, filter, trips) => {
    const r = new PowerRig({ emission: 'F1B', meter: 'heat', ...controls }, { filter }).run(600);
    expect(r.modes('sender').includes('trippedHeat')).toBe(trips);
    if (!trips) expect(Number(r.see('sender.small'))).toBeLessThan(80);
  });

  it('cleans a filter only when it is out', () => {
    const r = new PowerRig({}, { filter: 'dirty' });
    expect(r.see('sender.filterState')).toBe('dirty');
    expect(r.turn('sender.clean', true)).toMatch(/out/);
    r.do('sender.filter', false);
    expect(r.see('sender.filterState')).toBe('out, dirty');
    expect(r.push('sender.clean').see('sender.filterState')).toBe('out, clean');
    r.do('sender.filter', true);
    expect(r.see('sender.filterState')).toBe('clean');
  });
});
