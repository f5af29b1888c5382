import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS } from '../../../src/core/catalogue.ts';
import { readScript } from '../../../src/core/hand/script.ts';

const read = (text: string) => readScript(text, 'a.hand', KINDS.controls);
const errorsOf = (text: string) => {
  const r = read(text);
  return r.ok ? [] : r.errors.map((e) => `${e.line}:${e.col} ${e.code}`);
};

describe('hand scripts', () => {
  it('take a # in a text for text, and after a space outside one for a comment', () => {
    const r = read('1 desk.log = "NO #4 OVER" # "said" so\n# 2 wait\n');
    expect(r).toEqual({ ok: true, acts: [{ at_ms: 1000, control: 'desk.log', value: 'NO #4 OVER' }] });
  });

  it('set, press, type and wait, absolute and after the line before', () => {
    const r = read(
      '# a start\n1.5 feed.isolator = on\n+0.5 inverter.lever = A  # the first\n+1 hand.talk press 2\n+0 hand.say = "OVER"\n10 printer.key type "A1"\n+1 wait\n',
    );
    expect(r).toEqual({
      ok: true,
      acts: [
        { at_ms: 1500, control: 'feed.isolator', value: true },
        { at_ms: 2000, control: 'inverter.lever', value: 'A' },
        { at_ms: 3000, control: 'hand.talk', value: true },
        { at_ms: 5000, control: 'hand.talk', value: false },
        { at_ms: 5000, control: 'hand.say', value: 'OVER' },
        { at_ms: 10_000, control: 'printer.key', value: 'LTRS' },
        { at_ms: 10_180, control: 'printer.key', value: 'A' },
        { at_ms: 10_360, control: 'printer.key', value: 'FIGS' },
        { at_ms: 10_540, control: 'printer.key', value: 'Q' },
        { at_ms: 11_540, control: null, value: true },
      ],
    });
  });

  it('say where and what was expected', () => {
    expect(errorsOf('1 sender.warp = 9')).toEqual(['1:3 unknown-control']);
    const near = read('1 feed.isolater = on');
    expect(!near.ok && near.errors[0]?.expected).toContain('did you mean "feed.isolator"?');
    expect(errorsOf('nonsense\n'.repeat(1000))).toHaveLength(50);
    expect(errorsOf('1 feed.isolator = maybe')).toEqual(['1:19 does-not-fit']);
    // A switch takes its words as well, and the error says so.
    expect(read('1 feed.isolator = maybe')).toMatchObject({
      errors: [{ expected: 'one of off, on, true, false' }],
    });
    expect(errorsOf('\n  soon feed.isolator = on')).toEqual(['2:3 bad-line']);
    expect(errorsOf('5 wait\n4 wait')).toEqual(['2:1 bad-time']);
    expect(errorsOf('1 sender.coil = 1e9')).toEqual(['1:17 does-not-fit']);
    expect(errorsOf('1 sender.coil press')).toEqual(['1:3 does-not-fit']);
    expect(errorsOf('1 printer.key type "A€"')).toEqual(['1:20 no-such-key']);
    expect(errorsOf('1 desk.log = "unclosed')).toEqual(['1:14 bad-text']);
  });

  it('say where when a press or the typing of a text would last beyond a day', () => {
    expect(errorsOf('1 hand.talk press 99999999999999999999')).toEqual(['1:3 bad-time']);
    expect(errorsOf(`1 hand.talk press ${'9'.repeat(400)}`)).toEqual(['1:3 bad-time']);
    expect(errorsOf('86399 hand.talk press 2')).toEqual(['1:7 bad-time']);
    expect(errorsOf('86399 printer.key type "ABCDEFGHIJ"')).toEqual(['1:7 bad-time']);
    expect(errorsOf('86399 hand.talk press 1')).toEqual([]);
    expect(errorsOf(`${'9'.repeat(400)} wait`)).toEqual(['1:1 bad-time']);
  });

  it('are read in one go, however many spaces stand within a line', () => {
    // A reading that goes back over the spaces for each of them would not end: 2 million squared.
    expect(errorsOf(`1 wait${' '.repeat(1_999_000)}x`)).toEqual(['1:3 bad-line']);
    expect(errorsOf(`1 feed.isolator = ${'a '.repeat(900_000)}`)).toEqual(['1:19 does-not-fit']);
  });

  it('hold texts to the characters that a control takes', () => {
    expect(errorsOf('1 hand.say = "ROGER, OUT"')).toEqual([]);
    expect(errorsOf('1 hand.say = "GRÜSSE"')).toEqual(['1:14 does-not-fit']);
    expect(errorsOf('1 printer.key = QQ')).toEqual(['1:17 does-not-fit']);
    expect(errorsOf('1 printer.key = LTRS')).toEqual([]);
  });

  it('never throw, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(fc.string(), fc.constantFrom('1 ', 'feed.isolator', ' = ', 'press', 'type "', '"', '\n', '+')),
          { maxLength: 30 },
        ),
        (parts) => {
          read(parts.join(''));
        },
      ),
      { seed: 41, numRuns: 500 },
    );
  });

  it('refuse what is enormous without reading it', () => {
    expect(errorsOf('x'.repeat(10_000_000))).toEqual(['1:1 too-large']);
  });
});
