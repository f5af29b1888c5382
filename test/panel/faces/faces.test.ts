import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blades } from '../../../src/panel/faces/blades.ts';
import { cage } from '../../../src/panel/faces/cage.ts';
import { clock } from '../../../src/panel/faces/clock.ts';
import { drum } from '../../../src/panel/faces/drum.ts';
import { filter } from '../../../src/panel/faces/filter.ts';
import { fuse } from '../../../src/panel/faces/fuse.ts';
import { handKey } from '../../../src/panel/faces/handkey.ts';
import { handKeyPlan } from '../../../src/panel/faces/handkeyplan.ts';
import { cord } from '../../../src/panel/faces/jack.ts';
import { keyboard } from '../../../src/panel/faces/keyboard.ts';
import { lamp } from '../../../src/panel/faces/lamp.ts';
import { limb } from '../../../src/panel/faces/limb.ts';
import { limpet, limpetPair } from '../../../src/panel/faces/limpet.ts';
import { mic } from '../../../src/panel/faces/mic.ts';
import { page } from '../../../src/panel/faces/page.ts';
import { pins } from '../../../src/panel/faces/pins.ts';
import { plunger } from '../../../src/panel/faces/plunger.ts';
import { printer } from '../../../src/panel/faces/printer.ts';
import { punch } from '../../../src/panel/faces/punch.ts';
import { reeds } from '../../../src/panel/faces/reeds.ts';
import { ribbon, type Wave } from '../../../src/panel/faces/ribbon.ts';
import { sail } from '../../../src/panel/faces/sail.ts';
import { reader } from '../../../src/panel/faces/tape.ts';
import { tiller } from '../../../src/panel/faces/tiller.ts';
import { readout } from '../../../src/panel/faces/window.ts';
import { type Box, holds, inkBox, isPath, isText } from '../../../src/panel/kit/bounds.ts';
import type { Face } from '../../../src/panel/kit/face.ts';
import type { Op } from '../../../src/panel/kit/ops.ts';
import { INKS } from '../../../src/panel/kit/palette.ts';
import { outside } from '../../../src/panel/props/outside.ts';

/** Evenly spread, unlike fc.double, which crowds round zero. */
const real = (min: number, max: number) => fc.integer({ min: 0, max: 3600 }).map((i) => min + ((max - min) * i) / 3600);
const turns = real(-720, 720);
const code = fc.integer({ min: 0, max: 31 });
const one = real(0, 1);

interface Case {
  name: string;
  statics: () => Op[];
  tile: Box;
  values: fc.Arbitrary<Op[]>;
  natural: { w: number; h: number };
}

/** A face with one spec and all the values it may be given. */
function row<S, V>(name: string, face: Face<S, V>, spec: S, values: fc.Arbitrary<V>): Case {
  return {
    name,
    statics: () => face.staticOps(spec),
    tile: face.tileBox(spec),
    values: values.map((v) => face.liveOps(spec, v)),
    natural: face.natural,
  };
}

const wave: fc.Arbitrary<Wave> = fc.oneof(
  fc.constant<Wave>({ kind: 'idle' }),
  fc.record({ kind: fc.constant('trace' as const), samples: fc.array(real(-3, 3), { maxLength: 40 }) }),
  fc.record({ kind: fc.constant('bars' as const), heights: fc.array(one, { maxLength: 8 }) }),
  fc.record({
    kind: fc.constant('holes' as const),
    codes: fc.array(code, { maxLength: 7 }),
    now: fc.integer({ min: -1, max: 8 }),
  }),
  fc.record({ kind: fc.constant('field' as const), phase: one }),
  fc.record({
    kind: fc.constant('decision' as const),
    of: fc.constant(40),
    samples: fc.array(real(-2, 2), { maxLength: 30 }),
    marks: fc.array(fc.nat(40), { maxLength: 6 }),
  }),
  fc.record({ kind: fc.constant('letter' as const), text: fc.constantFrom('F', '4') }),
);
const links = ['keys', 'loop', 'keyer', 'sender', 'whip', 'ether', 'far whip', 'receiver', 'terminal unit', 'print'];
const text = fc.array(fc.constantFrom('QV4M DE QV7K', 'NR 7 = BRING 40', '', 'X'.repeat(30)), { maxLength: 14 });

const CASES: Case[] = [
  row('tiller of 2', tiller, { x: 100, y: 100, length: 54, words: ['low', 'full'], label: 'Power' }, real(-0.1, 1.1)),
  row('tiller of 3', tiller, { x: 100, y: 100, length: 70, words: ['OUT', 'STEADY', 'IN'] }, real(-0.1, 2.1)),
  row('tiller of 4', tiller, { x: 9, y: 4, length: 54, words: ['off', 'heat', 'wait', 'send'] }, real(-0.1, 3.1)),
  row('tiller of 5', tiller, { x: 9, y: 4, length: 32, words: ['a', 'b', 'c', 'd', 'e'], size: 0 }, real(-0.1, 4.1)),
  row('limpet', limpet, { x: 50, y: 50, r: 46, label: 'RF gain' }, one),
  row('limpet, small', limpet, { x: 50, y: 50, r: 12, marks: 0 }, one),
  row('limpet, detents', limpet, { x: 50, y: 50, r: 22, ring: true, words: [...'123456789'] }, real(0, 8)),
  row('limpet pair', limpetPair, { x: 50, y: 50, r: 40 }, fc.record({ coarse: turns, fine: turns })),
  row('drum', drum, { x: 10, y: 10, w: 36, h: 78 }, real(-30, 30)),
  row('drum, small', drum, { x: 10, y: 10, w: 15, h: 26 }, real(-30, 30)),
  row('drum in a row', drum, { x: 10, y: 10, w: 29, h: 53 }, real(-30, 30)),
  row(
    'sail',
    sail,
    { x: 5, y: 5, s: 125, min: 0, max: 100, step: 4, numbers: [0, 50], unit: 'W', stop: [80, 100] },
    real(-500, 500),
  ),
  row(
    'lamp',
    lamp,
    { x: 30, y: 30, r: 14, words: { dark: 'dark', lit: 'lit', radiating: 'radiating' } },
    fc.record({ state: fc.constantFrom('dark' as const, 'lit' as const, 'radiating' as const), glow: one }),
  ),
  row(
    'cage',
    cage,
    { x: 30, y: 60, r: 30, words: { guarded: 'guarded', open: 'cage up', pressed: 'pressed' } },
    fc.constantFrom('guarded', 'open', 'pressed'),
  ),
  row(
    'plunger',
    plunger,
    { x: 30, y: 60, w: 43, label: 'Limiter', words: { in: 'in', out: 'out' } },
    fc.constantFrom('in', 'out', 'tripped'),
  ),
  row('cord', cord, { a: [20, 20], b: [90, 44], r: 13 }, fc.constantFrom('out', 'patched', 'live')),
  row(
    'reader',
    reader,
    { x: 10, y: 30, pitch: 18.6, w: 500, gate: 90, letters: true },
    fc.record({
      codes: fc.array(code, { maxLength: 60 }),
      at: fc.option(real(0, 60)),
      live: fc.boolean(),
      print: fc.array(fc.constantFrom('A', '4', ''), { maxLength: 60 }),
    }),
  ),
  row('punch', punch, { x: 10, y: 30, pitch: 18.6 }, code),
  row(
    'printer',
    printer,
    { x: 10, y: 10, w: 574, h: 96, slot: { x: 16, y: 36, w: 396, h: 50 } },
    fc.record({ column: real(-5, 90), wheel: turns, live: fc.boolean() }),
  ),
  row('page', page, { x: 10, y: 10, w: 446, h: 290, size: 19, leading: 29 }, fc.record({ lines: text, rise: one })),
  row(
    'page, small',
    page,
    { x: 10, y: 10, w: 96, h: 150, size: 5, leading: 11, margin: 10 },
    fc.record({ lines: text, rise: one }),
  ),
  row(
    'keyboard',
    keyboard,
    { x: 10, y: 10, w: 550, row: 36 },
    fc.record({ down: fc.subarray(['Q', 'SPACE', 'LTRS', 'K']), figures: fc.boolean() }),
  ),
  row('hand key', handKey, { x: 10, y: 60, w: 112, words: { up: 'up', down: 'down' } }, fc.boolean()),
  row('hand key from above', handKeyPlan, { x: 10, y: 10, h: 84 }, fc.boolean()),
  row('microphone', mic, { x: 60, y: 60, h: 94, words: { open: 'open', pressed: 'pressed' } }, fc.boolean()),
  row(
    'blades',
    blades,
    { x: 10, y: 10, w: 116, h: 150, names: ['mark', 'space'] },
    fc.record({ mark: real(-1, 3), space: real(-1, 3), lean: real(-4, 4) }),
  ),
  row(
    'pins',
    pins,
    { x: 10, y: 30, words: ['hand', ...'123456789ABC'], pitch: 20, row: 33, label: 'Stored setting' },
    fc.integer({ min: 0, max: 12 }),
  ),
  row(
    'limb',
    limb,
    { x: 10, y: 20, w: 346, h: 46, bow: 27, span: 34, step: 1 },
    fc.record({ middle: real(-10, 28100), index: real(-10, 10), low: real(0, 26000), wide: fc.constant(2000) }),
  ),
  row(
    'reeds',
    reeds,
    { x: 10, y: 10, w: 130, h: 62, from: 46, to: 54, step: 1, numbers: true },
    fc.option(real(0, 100)),
  ),
  row('readout', readout, { x: 10, y: 10, w: 110, h: 26, frame: true }, fc.constantFrom('', '4 718.0', '1 044 pF')),
  row(
    'fuse',
    fuse,
    { x: 60, y: 30, w: 64, words: { whole: 'whole', blown: 'blown', none: 'empty' } },
    fc.constantFrom('whole', 'blown', 'none'),
  ),
  row(
    'filter',
    filter,
    { x: 10, y: 10, w: 76, h: 54 },
    fc.record({ fitted: fc.boolean(), dirt: one, fan: turns, running: fc.boolean() }),
  ),
  row('clock', clock, { x: 60, y: 60, r: 45 }, real(0, 200000)),
  row(
    'ribbon',
    ribbon,
    { x: 24, y: 10, w: 1232, names: links },
    fc.record({
      from: fc.constant('you'),
      to: fc.constant('QV7K'),
      lit: fc.array(fc.boolean(), { maxLength: 10 }),
      waves: fc.array(wave, { maxLength: 10 }),
      turn: turns,
    }),
  ),
  row(
    'outside',
    outside,
    { x: 1000, y: 98, h: 450 },
    fc.record({
      sections: fc.integer({ min: 0, max: 4 }),
      guard: fc.boolean(),
      spike: fc.boolean(),
      counterpoise: fc.integer({ min: 0, max: 4 }),
      radiating: fc.boolean(),
      phase: one,
      overhead: fc.boolean(),
    }),
  ),
];

const GRAMMAR = /^(?:[MLCQ](?:-?\d+(?:\.\d+)?(?: (?=-?\d)|(?=[MLCQZ]|$)))+|Z)+$/;
const FILLS = new Set<string>([...INKS, 'shade', 'hatch']);

/** What is wrong with a list of ops, in words. */
function faults(ops: readonly Op[]): string[] {
  const out: string[] = [];
  const need = (ok: boolean, what: string): void => {
    if (!ok) out.push(what);
  };
  let depth = 0;
  for (const op of ops) {
    if ('pop' in op) depth--;
    else if ('push' in op) {
      depth++;
      need((op.push.matrix ?? []).every(Number.isFinite), `matrix ${op.push.matrix}`);
      need(!op.push.clip || GRAMMAR.test(op.push.clip), `clip ${op.push.clip}`);
    } else if (isPath(op)) {
      need(GRAMMAR.test(op.d), `path ${op.d}`);
      need(!op.fill || FILLS.has(op.fill), `fill ${op.fill}`);
      need(
        !op.stroke || ((INKS as readonly string[]).includes(op.stroke) && (op.w ?? 0) > 0),
        `stroke ${op.stroke} ${op.w}`,
      );
    } else if (isText(op)) {
      need((INKS as readonly string[]).includes(op.fill), `text ink ${op.fill}`);
      need(op.fill !== 'persimmon' && op.fill !== 'sea', `text in ${op.fill}`);
      need(op.size >= 14, `text ${op.text} at ${op.size}`);
      need(Number.isFinite(op.x) && Number.isFinite(op.y), `text ${op.text} at ${op.x} ${op.y}`);
    }
    need(depth >= 0, 'pop without push');
  }
  need(depth === 0, 'push without pop');
  return out;
}

const RUNS = { seed: 50, numRuns: 40 };

describe.each(CASES)('$name', ({ statics, values, tile, natural }) => {
  it('draws well-formed ops in palette tokens, words at 14 or more', () => {
    expect(faults(statics())).toEqual([]);
    fc.assert(
      fc.property(values, (ops) => {
        expect(faults(ops)).toEqual([]);
      }),
      RUNS,
    );
  });

  it('keeps everything live inside its tile', () => {
    fc.assert(
      fc.property(values, (ops) => {
        const ink = inkBox(ops);
        if (ink.left <= ink.right) expect([holds(tile, ink), tile, ink]).toEqual([true, tile, ink]);
      }),
      RUNS,
    );
  });

  it('draws the same twice', () => {
    const draw = (): string => JSON.stringify(fc.sample(values, { seed: 7, numRuns: 5 }));
    expect(draw()).toBe(draw());
    expect(JSON.stringify(statics())).toBe(JSON.stringify(statics()));
  });

  it('has a natural size', () => {
    expect(natural.w).toBeGreaterThan(0);
    expect(natural.h).toBeGreaterThan(0);
  });
});
