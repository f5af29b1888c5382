import { expect, test } from 'vitest';
import { cover } from '../../../../src/core/station/boxes/cover.ts';
import { hand } from '../../../../src/core/station/boxes/hand.ts';
import { keyer } from '../../../../src/core/station/boxes/keyer.ts';
import { line } from '../../../../src/core/station/boxes/line.ts';
import { printer } from '../../../../src/core/station/boxes/printer.ts';
import { receiver } from '../../../../src/core/station/boxes/receiver.ts';
import { tape } from '../../../../src/core/station/boxes/tape.ts';
import { markAt } from '../../../../src/core/station/wave.ts';
import { earFor, type Far, textFrom } from './far-signal.ts';
import { Rig, silentEar } from './rig.ts';

const TEXT = 'THE QUICK BROWN FOX JUMPS 0123456789';
const F_Hz = 5_100_000;
const T0 = 3_000_000;
const BOXES = [hand, tape, printer, line, cover, keyer, receiver];
const SENT: Far = { f_Hz: F_Hz, shift_Hz: 400, cn0_dB: 60, edges: textFrom(TEXT, T0) };

const RX = { power: true, band: '4', dial: 1100, trim: 5, rfGain: 10, bandwidth: '1.2', agc: 'slow' };
const receiving = (far: Far | null, k = {}, rx = {}) =>
  new Rig(
    BOXES,
    {
      printer: { controls: { motor: true, source: 'line' } },
      line: { controls: { lever: 'IN' } },
      keyer: { controls: { power: true, hold: true, ...k } },
      receiver: { controls: { ...RX, ...rx } },
    },
    far ? earFor(far) : silentEar,
  );

// The whip has no height on this bench, so the receiver's own noise would drown all: give it one.
const up = (rig: Rig) => {
  rig.w.whip.height_m = 5.2;
  return rig;
};
const print = (far: Far | null, k = {}, rx = {}) =>
  up(receiving(far, k, rx))
    .run(10)
    .printed();

test('what a distant station sends prints', () => {
  expect(print(SENT)).toBe(TEXT);
});

test('with the wrong sense traffic is garble and steady mark reads as space', () => {
  expect(print(SENT, { sense: 'high', hold: false })).not.toContain('QUICK');
  const rig = up(receiving({ ...SENT, edges: [] }, { sense: 'high', hold: false })).run(5);
  expect(rig.codes()).toContain(0);
});

test('mark high sent, mark high set: clean', () => {
  expect(print({ ...SENT, markLow: false }, { sense: 'high' })).toBe(TEXT);
});

test('the receiver 300 Hz off does not print, 20 Hz off does', () => {
  expect(print(SENT, {}, { fine: 0.02 })).toBe(TEXT);
  expect(print(SENT, {}, { fine: 0.3 })).not.toContain('QUICK');
});

test('a weak signal is partly read, a lost one not at all', () => {
  const right = (cn0_dB: number) => {
    const got = print({ ...SENT, cn0_dB });
    return Array.from(TEXT).filter((c, i) => got[i] === c).length;
  };
  expect(right(45)).toBe(TEXT.length);
  expect(right(15)).toBeLessThan(10);
});

test('the blades and the lamp show a tone, and lean to the side the receiver is off', () => {
  const steady: Far = { ...SENT, edges: [] };
  const rig = up(receiving(steady)).run(3);
  expect(rig.see('keyer.lock')).toBe(true);
  const on = rig.see('keyer.blades') as { mark: number; space: number; lean: number };
  expect(on.mark).toBeGreaterThan(0.8);
  expect(on.space).toBeLessThan(0.3);
  expect(Math.abs(on.lean)).toBeLessThan(0.05);
  // Receiver 40 Hz low: the tone comes out 40 of 200 Hz high.
  const low = up(receiving(steady, {}, { fine: -0.04 }))
    .run(3)
    .see('keyer.blades') as { lean: number };
  expect(low.lean).toBeCloseTo(0.2, 1);
});

test('the lamp stands through the keying of strong traffic wherever its letters fall, and is out three seconds after', () => {
  for (let late_us = 0; late_us < 150_000; late_us += 25_000) {
    const edges = textFrom('QV4M DE QV7K R NR 14 K ROAD TO SAND QUAY OPEN UNTIL 1730', T0 + late_us);
    const goes_us = Math.max(...edges.map((e) => e.t_us));
    const rig = up(receiving({ ...SENT, edges, isOn: (t_us) => t_us < goes_us + 150_000 }));
    const seen: boolean[] = [];
    while (rig.now_us < goes_us) seen.push(rig.run(0.1).see('keyer.lock') === true);
    const lit = seen.indexOf(true);
    expect(lit).toBeGreaterThan(-1);
    expect([late_us, seen.slice(lit).includes(false)]).toEqual([late_us, false]);
    expect(rig.run(3).see('keyer.lock')).toBe(false);
  }
});

test('blades work with the lever at STEADY too, for tuning before traffic', () => {
  const rig = up(receiving({ ...SENT, edges: [] }));
  rig.do('line.lever', 'STEADY').run(4);
  expect(rig.see('keyer.lock')).toBe(true);
  expect(rig.printed()).toBe('');
});

test('noise alone: hold keeps the printer still, without it garble prints; the lamp stays out', () => {
  const noise: Far = { ...SENT, cn0_dB: -100 };
  const held = up(receiving(noise)).run(20);
  expect(held.codes().length).toBeLessThan(8);
  expect(held.see('keyer.lock')).toBe(false);
  expect(
    up(receiving(noise, { hold: false }))
      .run(20)
      .codes().length,
  ).toBeGreaterThan(30);
});

test('when the carrier goes, hold closes the loop', () => {
  const far: Far = { ...SENT, edges: [], isOn: (t) => t < 3e6 };
  const rig = up(receiving(far)).run(8);
  expect(markAt(rig.w.loop, rig.now_us)).toBe(true);
});

test('shift has to agree', () => {
  expect(print(SENT, { shift: '850' })).not.toBe(TEXT);
  expect(print({ ...SENT, shift_Hz: 850 }, { shift: '850' })).toBe(TEXT);
});

test('the window shows start-stop distortion: little on a strong signal, nothing while idle', () => {
  const strong = up(receiving(SENT)).run(6);
  expect(strong.see('keyer.dist')).toBeLessThan(15);
  expect(up(receiving(SENT)).run(2).see('keyer.dist')).toBe(null);
  const weak = up(receiving({ ...SENT, cn0_dB: 30 })).run(6);
  expect(weak.see('keyer.dist')).toBeGreaterThan(strong.see('keyer.dist') as number);
});

test('RF gain turned far down lets the own noise spoil print', () => {
  expect(print({ ...SENT, cn0_dB: 45 }, {}, { rfGain: 3 })).not.toBe(TEXT);
});

test('loop current is the knob while the unit is on; off it opens the loop', () => {
  const rig = receiving(null, { loop: 17 });
  expect(rig.w.supply_mA).toBe(17);
  expect(rig.w.loop_mA).toBe(17);
  rig.do('keyer.loop', 30);
  expect(rig.w.loop_mA).toBe(30);
  rig.do('keyer.power', false);
  expect(rig.w.supply_mA).toBe(0);
  expect(markAt(rig.w.loop, rig.now_us)).toBe(false);
});

test('OUT: the loop keys the sender; STEADY and IN: steady mark', () => {
  const rig = receiving(null).run(3).do('line.keys', true);
  for (const [lever, space] of [
    ['OUT', true],
    ['STEADY', false],
    ['IN', false],
  ] as const) {
    rig.do('line.lever', lever).run(0.5).do('printer.key', 'T');
    expect([lever, !markAt(rig.w.keyed, rig.now_us)]).toEqual([lever, space]);
  }
});

test('every bandwidth that holds the shift prints', () => {
  for (const bandwidth of ['6', '3', '1.2', '0.5'])
    expect([bandwidth, print(SENT, {}, { bandwidth })]).toEqual([bandwidth, TEXT]);
  // 850 Hz of shift do not fit half a kilohertz.
  expect(print({ ...SENT, shift_Hz: 850, cn0_dB: 45 }, { shift: '850' }, { bandwidth: '0.5' })).not.toBe(TEXT);
});

test('shift changed while receiving goes on without a fault', () => {
  const rig = up(receiving({ ...SENT, edges: [] })).run(3);
  rig.do('keyer.shift', '850').run(1).do('keyer.shift', '400').run(2);
  expect(rig.see('keyer.lock')).toBe(true);
});
