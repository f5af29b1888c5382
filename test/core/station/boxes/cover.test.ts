import { expect, test } from 'vitest';
import { cover, keyCharacter } from '../../../../src/core/station/boxes/cover.ts';
import { line } from '../../../../src/core/station/boxes/line.ts';
import { printer } from '../../../../src/core/station/boxes/printer.ts';
import { tape } from '../../../../src/core/station/boxes/tape.ts';
import { encode } from '../../../../src/core/telegraphy/ita2.ts';
import { selectorAtRest, selectorRun } from '../../../../src/core/telegraphy/selector.ts';
import { codesEdges } from '../../../../src/core/telegraphy/startstop.ts';
import { loopSupply } from './loop-supply.ts';
import { Rig } from './rig.ts';

const TEXT = 'CONVOY AT SAND QUAY 0940';
const PLAIN = encode(TEXT).codes;
const BOXES = [tape, printer, line, cover, loopSupply];

/** Codes that go on to the keyer for a text sent from tape. */
function sentCodes(controls = {}, step = true): number[] {
  const rig = new Rig(BOXES, {
    printer: { controls: { motor: true, source: 'line' } },
    tape: { inner: { reader: TEXT } },
    line: { controls: { lever: 'OUT', tape: true } },
    cover: { controls },
  }).run(2.5);
  if (step) rig.do('cover.set', true);
  const edges: { t_us: number; mark: boolean }[] = [];
  let seen = rig.now_us - 1;
  rig.do('tape.run', true);
  // The wave is pruned after four seconds: gather as it goes.
  for (let i = 0; i < 60; i++) {
    const upTo = rig.run(0.1).now_us;
    edges.push(...rig.w.sent.filter((e) => e.t_us > seen && e.t_us <= upTo));
    seen = upTo;
  }
  return selectorRun(selectorAtRest(), edges, seen, { baud: 50 }).chars.map((c) => c.code);
}

/** What prints when these codes come in from the terminal unit. */
function received(codes: readonly number[], controls = {}, group = 12): string {
  const rig = new Rig(BOXES, {
    printer: { controls: { motor: true, source: 'line' } },
    line: { controls: { lever: 'IN' } },
    cover: { controls: { ...controls, group } },
  }).run(2.5);
  if ('cover' in controls) rig.do('cover.set', true);
  rig.w.decided.push(...codesEdges(codes, rig.now_us + 10_000, 50, 1.5).edges);
  rig.station.settle();
  return rig.run(codes.length * 0.15 + 1).printed();
}

const COVER = { cover: true, tapeNo: '2', group: 12 };

test('plain passes straight through, without delay', () => {
  expect(sentCodes({}, false)).toEqual(PLAIN);
  expect(received(PLAIN)).toBe(TEXT);
});

test('covered: each character is the sum, unit by unit without carry, of text and key (Vernam 1926)', () => {
  expect(sentCodes(COVER)).toEqual(PLAIN.map((c, i) => c ^ keyCharacter(1, '2', 12 * 5 + i)));
});

test('the same addition gives the text back; plain at the far end, another tape or another group do not', () => {
  const covered = sentCodes(COVER);
  expect(received(covered, COVER)).toBe(TEXT);
  expect(received(covered)).not.toContain('CONVOY');
  expect(received(covered, { ...COVER, tapeNo: '3' })).not.toContain('CONVOY');
  expect(received(covered, COVER, 13)).not.toContain('CONVOY');
});

test('a character lost on the way puts all that follows out of step', () => {
  const covered = sentCodes(COVER);
  const lost = covered.filter((_, i) => i !== 8);
  const text = received(lost, COVER);
  expect(text.startsWith('CONVOY')).toBe(true);
  expect(text).not.toContain('QUAY');
});

test('the place on the key tape counts characters from the start group; setting needs a tape', () => {
  const rig = new Rig(BOXES, { cover: { controls: { group: 7 } } });
  expect(rig.turn('cover.set', true)).toBe('no key tape in');
  expect(rig.do('cover.cover', true).see('cover.lamp')).toBe(false);
  rig.do('cover.tapeNo', '1').do('cover.set', true);
  expect(rig.see('cover.step')).toBe(35);
  expect(rig.see('cover.lamp')).toBe(true);
});

test('key characters use all 32 codes about evenly (chi-square over 3200, 31 degrees: 99.9 % point 61.1)', () => {
  const counts = new Array(32).fill(0);
  for (let i = 0; i < 3200; i++) counts[keyCharacter(5, '1', i)]++;
  expect(counts.reduce((x2, n) => x2 + (n - 100) ** 2 / 100, 0)).toBeLessThan(61.1);
});
