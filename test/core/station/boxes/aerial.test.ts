import { describe, expect, it } from 'vitest';
import { PowerRig } from './power-rig.ts';

const LINES = { aerial: { controls: { sections: 2, guard: true }, inner: { lines: true } } };

describe('aerial', () => {
  it('is four sections of 1.3 m, 5.2 m in all (table of values)', () => {
    expect(new PowerRig().see('aerial.height')).toBe('5.2');
    expect(new PowerRig().w.whip).toMatchObject({ sections: 4, radius_m: 0.01, guard: true, earthed: true });
  });

  it('shows what is overhead only to one who looks', () => {
    const r = new PowerRig({}, {}, LINES);
    expect(r.see('aerial.overhead')).toBe('not looked');
    expect(r.push('aerial.look').see('aerial.overhead')).toBe('line near');
    expect(new PowerRig().push('aerial.look').see('aerial.overhead')).toBe('clear');
  });

  it('shows where the exhaust went when one looked', () => {
    const r = new PowerRig();
    expect(r.push('aerial.look').see('aerial.exhaust')).toBe('clear');
    expect(r.do('feed.vent', false).push('aerial.look').see('aerial.exhaust')).toBe('at the shelter');
  });

  it('loses 10 ohm in the ground with spike and four wires, more without (table of values)', () => {
    const r = new PowerRig();
    expect(r.w.whip.ground_ohm).toBe(10);
    const no = r.do('aerial.earth', false).w.whip.ground_ohm;
    expect(no).toBeGreaterThan(10);
    expect(r.do('aerial.counterpoise', 1).w.whip.ground_ohm).toBeGreaterThan(no);
  });

  it('radiates less over a worse ground and from a shorter whip', () => {
    const on = (r: PowerRig) => r.push('sender.seek').run(30).do('sender.emission', 'F1B').w.radiated_W;
    const best = on(new PowerRig());
    expect(on(new PowerRig({}, {}, { aerial: { controls: { sections: 4, guard: true } } }))).toBeLessThan(best / 2);
    const short = { aerial: { controls: { sections: 2, guard: true, earth: true, counterpoise: 4 } } };
    expect(on(new PowerRig({ setting: 'hand', frequency: 5310 }, {}, short))).toBeLessThan(best);
  });

  it('lets nobody touch the whip while the sender radiates', () => {
    const r = new PowerRig({ emission: 'F1B' });
    expect(r.see('aerial.foot')).toBe(true);
    expect(r.turn('aerial.sections', 2)).toMatch(/radiates/);
    r.do('sender.readiness', 'wait').run(0.2);
    expect(r.see('aerial.foot')).toBe(false);
    expect(r.turn('aerial.sections', 2)).toBeUndefined();
  });

  it('records a radiation without the guard once, Morse gaps and all', () => {
    const r = new PowerRig({ emission: 'A1A' });
    r.do('aerial.guard', false);
    const t = r.now_us;
    r.hand({ handKey: [0, 1, 2, 3, 4, 5].map((i) => ({ t_us: t + i * 60_000, mark: i % 2 === 0 })) }).run(2);
    expect(r.unsafe()).toEqual(['guard off, foot live']);
    r.hand({ handKey: [{ t_us: r.now_us, mark: true }] }).run(1);
    expect(r.unsafe()).toEqual(['guard off, foot live', 'guard off, foot live']);
  });

  it('records a guard that is taken off a live foot, and none with the guard on', () => {
    const r = new PowerRig({ emission: 'F1B' }).run(1);
    expect(r.unsafe()).toEqual([]);
    r.do('aerial.guard', false).run(1);
    expect(r.unsafe()).toEqual(['guard off, foot live']);
  });

  it('records raising near a line, not lowering', () => {
    const r = new PowerRig({}, {}, LINES);
    r.do('aerial.sections', 1);
    expect(r.unsafe()).toEqual([]);
    r.do('aerial.sections', 2).do('aerial.second', true);
    expect(r.unsafe()).toEqual(['whip raised near a power line', 'second whip raised near a power line']);
  });

  it('puts a second whip where the operator carries it', () => {
    const r = new PowerRig().do('aerial.second', true).do('aerial.spacing', 18);
    expect(r.w.whip).toMatchObject({ second: true, distance_m: 18 });
  });
});
