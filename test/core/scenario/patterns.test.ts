/** A pattern that no line of any record can match is a fault: a `never` that asks for it would let everything pass. */
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../../src/core/scenario/scenario.ts';
import { changed, kinds } from './sample.ts';

const WAS = '{ k: do, control: lamp.flash }';
/** Errors of the sample with a happening on this pattern, as `piece: code expected`; the piece is what the place points at. */
const errorsOf = (pattern: string): string[] => {
  const read = readScenario(changed(WAS, pattern), kinds, 'sample.yaml');
  if (read.ok) return [];
  const lines = changed(WAS, pattern).split('\n');
  return read.errors.map(({ line, col, code, expected }) => {
    const piece = lines[line - 1]?.slice(col - 1).match(/^"?[\w*]+/)?.[0];
    return `${piece}: ${code} ${expected}`;
  });
};

// The sample has a post, which prints and notes; a talker, which notes another thing; and a horn, which does neither.
describe('a pattern is refused with a place', () => {
  it.each([
    [
      'a carrier of `own`, which is on the air by its call sign',
      '{ k: air, station: own }',
      /^own: unknown-station .*QV4M/,
    ],
    ['words of `own`', '{ k: spoke, station: own }', /^own: unknown-station .*QV4M/],
    ['words of a station that has none', '{ k: spoke, station: QV8H }', /^QV8H: unknown-station .*QV4M, QV7K, QV9T/],
    ['notes by the own call sign', '{ k: far, station: QV4M }', /^QV4M: unknown-station own/],
    ['notes of a station that notes nothing', '{ k: far, station: QV8H }', /^QV8H: unknown-station .*notes something/],
    [
      'a note of another kind of station',
      '{ k: far, station: QV9T, what: called }',
      /^called: unknown-note .*QV9T.*\(covered\)/,
    ],
    [
      'a distant note of the own station',
      '{ k: far, station: own, what: covered }',
      /^covered: unknown-note .*own.*\(unsafe\)/,
    ],
    [
      'a note that none of some makes',
      '{ k: far, station: { in: [own, QV9T] }, what: called }',
      /^called: unknown-note .*\(unsafe, covered\)/,
    ],
    ['one of some notes', '{ k: far, station: QV9T, what: { in: [covered, called] } }', /^called: unknown-note/],
    ['a note of no such name', '{ k: far, station: QV9T, what: { like: "call*" } }', /^"call\*: unknown-note/],
    ['a deed by `own`', '{ k: far, what: covered, detail.by: own }', /^own: unknown-station .*call-sign card/],
    ['print at a station without a printer', '{ k: print, at: QV9T }', /^QV9T: unknown-station .*prints/],
    ['print at the own call sign', '{ k: print, at: QV4M }', /^QV4M: unknown-station own/],
  ])('%s', (_, pattern, expected) => {
    const errors = errorsOf(pattern);
    expect(errors).toHaveLength(1);
    expect(errors[0]).toMatch(expected);
  });
});

it.each([
  '{ k: air, station: QV4M }',
  '{ k: air, station: QV8H }',
  '{ k: spoke, station: { not: QV4M } }',
  '{ k: spoke, station: QV9T }',
  '{ k: far, station: own, what: unsafe }',
  '{ k: far, station: QV7K, what: called, detail.by: QV4M }',
  '{ k: far, what: covered, detail.by: QV4M }',
  '{ k: far, station: { in: [QV7K, QV9T] }, what: { in: [called, covered] } }',
  '{ k: far, station: { like: "QV*" }, what: { like: "c*" } }',
  '{ k: print, at: own }',
  '{ k: print, at: QV7K }',
])('%s is let through', (pattern) => {
  expect(errorsOf(pattern)).toEqual([]);
});
