import { describe, expect, it } from 'vitest';
import { showErrors } from '../../../src/core/record/places.ts';
import { type Located, readScenario } from '../../../src/core/scenario/scenario.ts';
import { changed, kinds, SAMPLE, sample } from './sample.ts';

function errorsOf(text: string, file = 'sample.yaml'): Located[] {
  const read = readScenario(text, kinds, file);
  return read.ok ? [] : read.errors;
}

/** `line:col code` of every error, with the character under the caret checked against the text. */
function places(text: string): string[] {
  return errorsOf(text).map((e) => {
    expect(e.caret.indexOf('^')).toBe(e.caret.length - 1);
    expect(text.split('\n')[e.line - 1]).toContain(e.source);
    return `${e.line}:${e.col} ${e.code}`;
  });
}

const at = (text: string, piece: string, code: string): string => {
  const offset = text.indexOf(piece);
  const before = text.slice(0, offset);
  return `${before.split('\n').length}:${offset - before.lastIndexOf('\n')} ${code}`;
};

describe('a scenario that is right', () => {
  it('reads, with what was left out filled in', () => {
    const s = sample();
    expect(s.id).toBe('sample');
    expect(s.own.controls).toEqual({ 'lamp.power': false, 'lamp.level': 2.5 });
    expect(s.measures[0]).toMatchObject({ id: 'lit', critical: true, at: { value: true } });
    expect(s.steps[0]?.do[0]).toMatchObject({ set: { 'lamp.power': true } });
    expect(s.steps[0]?.do[1]).toEqual({ press: ['lamp.flash'] });
    expect(s.steps[0]?.do[5]).toEqual({ when: { see: 'lamp.lit', is: false }, do: [{ wait: 1 }], else: [] });
    expect(s.steps[0]?.done).toEqual({ standing: 'lamp.power', is: true });
  });
  it('knows a switch by its own words in what was done, too', () => {
    const done = sample(1, SAMPLE.replace('standing: lamp.power', 'did: lamp.power')).steps[0]?.done;
    expect(done).toEqual({ did: 'lamp.power', is: true });
  });
  it('reads with CRLF line ends and a byte order mark', () => {
    expect(errorsOf(`\uFEFF${SAMPLE.replaceAll('\n', '\r\n')}`)).toEqual([]);
  });
});

// biome-ignore-start lint/suspicious/noTemplateCurlyInString: draws are written so
describe('errors say where', () => {
  // [what is replaced, by what, the piece of the new text that is pointed at, code, words expected]
  const cases: [string, string, string, string, string, RegExp][] = [
    ['a name to hear that is no name', '<row> <column>', '<1row> <column>', '<1row>', 'bad-pattern', /<name>/],
    ['a word to hear of signs only', 'QV4M * AUTH', 'QV4M !! * AUTH', '!! *', 'bad-pattern', /letters or figures/],
    [
      'an inner thing that does not fit',
      'lamp.error_V: "${error}"',
      'lamp.error_V: far',
      'far',
      'wrong-type',
      /number/,
    ],
    [
      'an inner thing that cannot change',
      '{ lamp.fault: slow }',
      '{ lamp.error_V: 0.1 }',
      'lamp.error_V: 0.1',
      'cannot-change',
      /running|runs/,
    ],
    ['a thing to tell that is not taken', 'tell: { say: [HELLO] }', 'tell: 55555', '55555', 'wrong-type', /say/],
    [
      'a thing to tell in a wrong word',
      'tell: { say: [HELLO] }',
      'tell: { sya: [HELLO] }',
      'sya',
      'unknown-key',
      /perhaps "say"/,
    ],
    ['a misspelt key', 'about:', 'abuot:', 'abuot', 'unknown-key', /perhaps "about"/],
    [
      'a key that is no key at all',
      'title: Light the lamp\n',
      'title: Light the lamp\nzzzzzzzz: 1\n',
      'zzzzzzzz',
      'unknown-key',
      /keys here are id, title/,
    ],
    ['a missing key points at its parent', '    title: Put the lamp in\n', '', 'id: power', 'missing-key', /"title"/],
    ['a missing key in a map points at its key', 'novice: 2, ', '', 'minutes', 'missing-key', /"novice"/],
    ['an unquoted number for a call sign', 'call: "QV4M"', 'call: 007', '007', 'unquoted-code', /quoted/],
    ['an unquoted exponent for a call sign', 'call: "QV4M"', 'call: 1E5', '1E5', 'unquoted-code', /quoted/],
    ['an unquoted number as a message line', '"="]', '1600]', '1600', 'unquoted-code', /quotes/],
    ['a call sign of the wrong form', 'call: "QV4M"', 'call: "qv-4m"', '"qv-4m"', 'bad-code', /capital/],
    [
      'an unknown control as found',
      'lamp.level: 2.5',
      'lamp.levle: 2.5',
      'lamp.levle',
      'unknown-control',
      /did you mean "lamp.level"/,
    ],
    ['a value that does not fit', 'lamp.level: 2.5', 'lamp.level: 12', '12 }', 'does-not-fit', /from 0 to 10 V/],
    ['an unknown inner thing', 'lamp.fault: slow', 'lamp.falt: slow', 'lamp.falt', 'unknown-inner', /lamp.fault/],
    ['an unknown indicator in a step', 'see: lamp.lit', 'see: lamp.lid', 'lamp.lid', 'unknown-indicator', /lamp.lit/],
    [
      'an unknown control in a step',
      'press: lamp.flash',
      'press: lamp.flsh',
      'lamp.flsh',
      'unknown-control',
      /lamp.flash/,
    ],
    [
      'a control that is not pressed',
      'press: lamp.flash',
      'press: lamp.power',
      'lamp.power\n',
      'does-not-fit',
      /pressed/,
    ],
    ['an unknown quantity', 'q: lamp.lit', 'q: lamp.light', 'lamp.light', 'unknown-quantity', /lamp.lit/],
    [
      'a control in a pattern',
      'control: lamp.power, value: in',
      'control: lamp.pwr, value: in',
      'lamp.pwr',
      'unknown-control',
      /lamp.power/,
    ],
    [
      'a misspelt field of a pattern',
      'at: { k: do, control',
      'at: { k: do, controll',
      'controll',
      'unknown-key',
      /perhaps "control"/,
    ],
    [
      'a standing that is no position',
      'standing: lamp.power, is: in',
      'standing: lamp.power, is: purple',
      'purple',
      'does-not-fit',
      /out, in, true, false/,
    ],
    [
      'a standing that is no word of the control',
      'standing: lamp.power, is: in',
      'standing: lamp.colour, not: purple',
      'purple',
      'does-not-fit',
      /red, green, 7/,
    ],
    [
      'something done with a control that is not there',
      'standing: lamp.power, is: in',
      'did: lamp.pwr, is: in',
      'lamp.pwr',
      'unknown-control',
      /lamp.power/,
    ],
    [
      'something done that cannot be',
      'standing: lamp.power, is: in',
      'did: lamp.power, is: purple',
      'purple',
      'does-not-fit',
      /out, in, true, false/,
    ],
    [
      'one of several standings',
      'standing: lamp.power, is: in',
      'standing: lamp.power, in: [in, up]',
      'up]',
      'does-not-fit',
      /out, in/,
    ],
    [
      'a switch above a number',
      'standing: lamp.power, is: in',
      'standing: lamp.power, above: 3',
      'above: 3',
      'does-not-fit',
      /is, not or in, with one of out, in/,
    ],
    [
      'a standing beyond the control',
      'standing: lamp.power, is: in',
      'standing: lamp.level, above: 10',
      '10 }\n',
      'does-not-fit',
      /below 10/,
    ],
    [
      'two bounds with nothing between',
      'standing: lamp.power, is: in',
      'standing: lamp.level, above: 4, below: 4',
      '4 }\n',
      'does-not-fit',
      /above 4/,
    ],
    [
      'a text like a number',
      'standing: lamp.power, is: in',
      'standing: lamp.level, like: 1*',
      'like: 1',
      'does-not-fit',
      /from 0 to 10 V/,
    ],
    [
      'a lamp that shows a word',
      'see: lamp.lit, is: false',
      'see: lamp.lit, is: dark',
      'dark }',
      'does-not-fit',
      /true or false/,
    ],
    [
      'a lamp below a number',
      'see: lamp.lit, is: false',
      'see: lamp.lit, below: 1',
      'below: 1',
      'does-not-fit',
      /with true or false/,
    ],
    [
      'a meter that shows a word',
      'see: lamp.lit, is: false',
      'see: lamp.volts, is: high',
      'high',
      'does-not-fit',
      /a number/,
    ],
    [
      'a window that shows another word',
      'see: lamp.lit, is: false',
      'see: lamp.glass, is: broken',
      'broken',
      'does-not-fit',
      /one of "clean", "sooty"/,
    ],
    [
      'a condition deep within',
      'done: { standing: lamp.power, is: in }',
      'done: { any: [ { not: { standing: lamp.power, is: up } } ] }',
      'up }',
      'does-not-fit',
      /out, in/,
    ],
    [
      'a word remembered as true and false',
      'see: lamp.lit, is: false',
      'remembered: reply, is: true',
      'true }\n',
      'does-not-fit',
      /a word/,
    ],
    [
      'a word that nobody remembers',
      'see: lamp.lit, is: false',
      'remembered: replay, is: "AB"',
      'replay',
      'unknown-word',
      /reply/,
    ],
    [
      'a row that nobody named',
      'row: row, column: column',
      'row: raw, column: column',
      'raw, column',
      'unknown-word',
      /row/,
    ],
    [
      'a set value',
      'lamp.power: in, lamp.colour',
      'lamp.power: up, lamp.colour',
      'up, lamp',
      'does-not-fit',
      /out, in/,
    ],
    [
      'a value in a pattern',
      'control: lamp.power, value: in',
      'control: lamp.power, value: up',
      'up }',
      'does-not-fit',
      /out, in/,
    ],
    [
      'a test in a pattern',
      'control: lamp.power, value: in',
      'control: lamp.power, value: { not: up }',
      'up } }',
      'does-not-fit',
      /out, in/,
    ],
    [
      'a quantity that is another thing',
      'q: lamp.lit, is: true',
      'q: lamp.lit, is: bright',
      'bright',
      'does-not-fit',
      /true or false/,
    ],
    [
      'a quantity near no number',
      'q: lamp.lit, is: true',
      'q: lamp.lit, near: 1, by: 1',
      'near: 1',
      'does-not-fit',
      /true or false/,
    ],
    [
      'a sampled value',
      '{ k: do, control: lamp.flash }',
      '{ k: value, q: lamp.volts_V, v: { is: high } }',
      'high',
      'does-not-fit',
      /a number/,
    ],
    [
      'a station in a test',
      '{ k: do, control: lamp.flash }',
      '{ k: air, station: { not: QV8K } }',
      'QV8K',
      'unknown-station',
      /station/,
    ],
    [
      'an emission that is none',
      '{ k: do, control: lamp.flash }',
      '{ k: air, emission: { in: [A3E, A3X] } }',
      'A3X',
      'unknown-word',
      /F1B/,
    ],
    [
      'a mode that the box lacks',
      '{ k: do, control: lamp.flash }',
      '{ k: mode, box: lamp, mode: smoking }',
      'smoking',
      'unknown-mode',
      /dark, burning/,
    ],
    [
      'a note that no station makes',
      '{ k: do, control: lamp.flash }',
      '{ k: far, what: caled }',
      'caled',
      'unknown-note',
      /called/,
    ],
    [
      'a happening that does not come',
      '{ k: do, control: lamp.flash }',
      '{ k: happen, id: blew }',
      'blew',
      'unknown-happening',
      /blow/,
    ],
    ['a message to nobody', 'to: "QV7K"', 'to: "QV7X"', '"QV7X"', 'unknown-station', /QV7K/],
    ['a happening at no station', 'station: "QV7K"', 'station: "QV8K"', '"QV8K"', 'unknown-station', /QV7K/],
    ['an unknown draw', '"${error}"', '"${eror}"', '${eror}', 'unknown-draw', /"error"/],
    ['a pick without its owner', 'with: colour', 'with: color', 'color', 'unknown-draw', /"colour"/],
    ['a pick of another length', '[ROT, GRUEN]', '[ROT]', '[ROT]', 'too-few', /2 values/],
    ['a range that goes back', 'to: 0.8', 'to: -0.9', '-0.9', 'out-of-range', /`from`/],
    ['a draw with a step beyond all use', 'step: 0.1', 'step: 0.000001', '0.000001', 'out-of-range', /100000 values/],
    [
      'one value of a draw that does not fit',
      'of: [red, green]',
      'of: [red, blue]',
      '"${colour}" }',
      'does-not-fit',
      /red, green/,
    ],
    ['a line of 70 characters', '"="]', `"${'X'.repeat(70)}"]`, 'X"]', 'line-too-long', /69/],
    ['a character that ITA2 lacks', '"="]', '"A%B"]', '%', 'not-in-alphabet', /"%"/],
    ['a line end within a line', '"="]', '"A\\nB"]', '"A\\nB"', 'not-in-alphabet', /ITA2/],
    ['an unknown kind of measure', 'kind: state', 'kind: stat', 'stat\n', 'unknown-kind', /order, state/],
    ['an unknown kind of station', 'kind: post', 'kind: mast', 'mast', 'unknown-kind', /post/],
    ['parameters of a station', '{ kHz: 4718 } }', '{ kHz: high } }', 'high', 'wrong-type', /number/],
    ['a key of another kind of measure', 'need: [', 'moments: [', 'moments', 'unknown-key', /need/],
    ['an unknown action', '- punch: NR14', '- pucnh: NR14', 'pucnh', 'unknown-key', /perhaps "punch"/],
    ['an unknown message in a step', 'punch: NR14', 'punch: NR15', 'NR15', 'unknown-message', /NR14/],
    ['an unknown message as the form of a step', 'form: NR14', 'form: NR15', 'NR15', 'unknown-message', /NR14/],
    ['a word nobody has said', '{reply}"', '{repley}"', '{repley}', 'unknown-word', /reply/],
    [
      'an unknown condition',
      '{ see: lamp.lit, is: false }',
      '{ seen: lamp.lit }',
      '{ seen',
      'unknown-key',
      /perhaps "see"/,
    ],
    ['a date that is none', 'date: "2031-10-06"', 'date: "2031-13-06"', '"2031-13-06"', 'bad-code', /YYYY-MM-DD/],
    ['a place that is none', '[52.0, 10.0]', '[152.0, 10.0]', '152.0', 'out-of-range', /-90 to 90/],
    ['an unknown ground', 'ground: sea', 'ground: see', 'see, km', 'unknown-word', /sea/],
    ['a second thing of the same id', 'id: ask', 'id: blow', 'blow, when', 'duplicate-id', /another id/],
    ['a happening after the end', 'at_s: 20', 'at_s: 400', '400', 'too-late', /time limit/],
    ['an id unlike its file', 'id: sample', 'id: simple', 'simple', 'bad-id', /sample/],
    ['no weight at all', 'weight: 10', 'weight: 0', '- id: lit', 'no-weight', /above 0/],
    [
      'a list where a map is due',
      'minutes: { novice: 2, expert: 1 }',
      'minutes: [2, 1]',
      'minutes',
      'missing-key',
      /novice/,
    ],
    ['a text where a list is due', 'conditions: [Night]', 'conditions: Night', 'Night', 'wrong-type', /list/],
  ];
  for (const [name, from, to, piece, code, expected] of cases) {
    it(name, () => {
      const text = changed(from, to);
      const found = places(text);
      expect(found).toContain(at(text, piece, code));
      const error = errorsOf(text).find((e) => e.code === code);
      expect(error?.expected).toMatch(expected);
      expect(error?.file).toBe('sample.yaml');
    });
  }
  it('several at once, in the order of the text', () => {
    const text = changed('lamp.level: 2.5', 'lamp.level: 12').replace('see: lamp.lit', 'see: lamp.lid');
    expect(errorsOf(text).map((e) => e.code)).toEqual(['does-not-fit', 'unknown-indicator']);
  });
  it('shows the line and a caret under the column', () => {
    const shown = showErrors(errorsOf(changed('lamp.level: 2.5', 'lamp.level: 12')));
    const [head, source, caret] = shown.split('\n');
    expect(head).toMatch(/^sample\.yaml:\d+:\d+: does-not-fit a number from 0 to 10 V$/);
    expect(source?.indexOf('12')).toBe(caret?.indexOf('^'));
  });
});
// biome-ignore-end lint/suspicious/noTemplateCurlyInString: as above
