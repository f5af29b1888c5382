import { describe, expect, it } from 'vitest';
import { mark, type Verdict } from '../../../src/core/marking/marking.ts';
import type { Stated } from '../../../src/core/marking/measure.ts';
import type { DrillRecord } from '../../../src/core/record/record.ts';
import { air, did, far, prints, recordOf, was, wrote } from './record-maker.ts';

const MESSAGE = ['QV7K DE QV4M', 'ROAD TO SAND QUAY OPEN UNTIL 1600. BRING 40 BLANKETS'];

function judge(record: DrillRecord, own: Partial<Stated> & { kind: string }): Verdict {
  const measure = { id: 'm', title: 'M', weight: 10, critical: false, standard: 's', ...own } as Stated;
  const sheet = {
    own: { call: 'QV4M' },
    papers: { messages: [{ id: 'NR14', lines: MESSAGE }] },
    measures: [measure],
    pass: 80,
  };
  return mark(record, sheet).measures[0] as Verdict;
}
const passed = { go: true, exercised: true, points: 10 };
const failed = { go: false, exercised: true };
const idle = { go: false, exercised: false, points: 0 };

describe('order', () => {
  const own = {
    kind: 'order',
    moments: [
      { k: 'do', control: 'a' },
      { k: 'do', control: 'b' },
      { k: 'do', control: 'c' },
    ],
  };
  it('passes in order, whatever lies between', () => {
    const record = recordOf([
      [1, did('a', true)],
      [2, did('x', 1)],
      [3, did('b', true)],
      [4, did('c', true)],
    ]);
    expect(judge(record, own)).toMatchObject({ ...passed, because: [4, 3, 1] });
  });
  it('fails when one is missing, and points at those that are there', () => {
    expect(
      judge(
        recordOf([
          [1, did('a', true)],
          [2, did('b', true)],
        ]),
        own,
      ),
    ).toMatchObject({ ...failed, points: 0, value: 'missing: c', because: [1, 2], at_us: 2e6 });
  });
  it('fails when one came only before its turn, and points at it first', () => {
    expect(
      judge(
        recordOf([
          [1, did('b', 1)],
          [2, did('a', 1)],
          [3, did('c', 1)],
        ]),
        own,
      ),
    ).toMatchObject({ ...failed, value: 'b only at 00 00 01, before a at 00 00 02', because: [1, 2] });
  });
  it('is not exercised when nothing of it happened', () => {
    expect(judge(recordOf([[1, did('x', 1)]]), own)).toMatchObject(idle);
  });
  it('a thing done too early is mended by doing it again, but not strictly', () => {
    const record = recordOf([
      [1, did('b', 1)],
      [2, did('a', 1)],
      [3, did('b', 1)],
      [4, did('c', 1)],
    ]);
    expect(judge(record, own)).toMatchObject(passed);
    expect(judge(record, { ...own, strict: true })).toMatchObject({
      ...failed,
      value: 'b at 00 00 01, before a at 00 00 02',
      because: [1, 2],
    });
  });
});

describe('state', () => {
  const own = {
    kind: 'state',
    at: { k: 'do', control: 'heat' },
    need: [
      { q: 'aerial.guard', is: true },
      { q: 'sender.reflected_W', below: 6 },
    ],
  };
  const found = [
    [0, was('aerial.guard', false)],
    [0, was('sender.reflected_W', 3)],
  ] as const;
  it('passes with the values as last written', () => {
    expect(judge(recordOf([...found, [1, was('aerial.guard', true)], [2, did('heat', true)]]), own)).toMatchObject({
      ...passed,
      because: [4, 3, 2],
    });
  });
  it('fails and tells the value that was wrong', () => {
    const verdict = judge(recordOf([...found, [2, did('heat', true)], [3, was('aerial.guard', true)]]), own);
    expect(verdict).toMatchObject({
      ...failed,
      value: 'aerial not guard at 00 00 02 (heat)',
      because: [3, 1],
    });
  });
  it('is not exercised when the moment never came', () => {
    expect(judge(recordOf(found), own)).toMatchObject(idle);
  });
  it('calls a moment that never came by what it is', () => {
    const own = { kind: 'state', at: { k: 'mode', box: 'sender', mode: 'heating' }, need: [{ q: 'x.y', is: 1 }] };
    const never = judge(recordOf([[1, did('x', 1)]]), { ...own, moment: 'when the heat came on' });
    expect(never).toMatchObject({ ...idle, value: 'the moment never came: sender heating' });
  });
  it('first, last and every', () => {
    const record = recordOf([
      ...found,
      [1, was('aerial.guard', true)],
      [2, did('heat', true)],
      [3, was('sender.reflected_W', 7.5)],
      [4, did('heat', true)],
    ]);
    expect(judge(record, own)).toMatchObject(passed);
    expect(judge(record, { ...own, which: 'last' })).toMatchObject({
      ...failed,
      value: 'reflected 7.5 W at 00 00 04 (heat)',
    });
    expect(judge(record, { ...own, which: 'every' })).toMatchObject({
      ...failed,
      value: 'reflected 7.5 W at 00 00 04 (heat) (1 of 2 times right)',
    });
  });
  it('near holds up to its width and not beyond', () => {
    const near = { kind: 'state', at: { k: 'do' }, need: [{ q: 'receiver.tuned_Hz', near: 4_718_000, by: 30 }] };
    const at = (hz: number) =>
      recordOf([
        [0, was('receiver.tuned_Hz', hz)],
        [1, did('x', 1)],
      ]);
    expect(judge(at(4_718_030), near).go).toBe(true);
    expect(judge(at(4_717_970), near).go).toBe(true);
    expect(judge(at(4_718_035), near).go).toBe(false);
  });
  it('a quantity never written fails', () => {
    expect(judge(recordOf([[1, did('heat', true)]]), own)).toMatchObject({
      ...failed,
      value: 'guard not seen, reflected not seen at 00 00 01 (heat)',
    });
  });
});

describe('within', () => {
  const own = {
    kind: 'within',
    from: { k: 'far', what: 'challenged' },
    to: { k: 'do', control: 'hand.say' },
    seconds: 20,
    stretch: true,
  };
  const answered = (s: number) =>
    [
      [10, far('challenged')],
      [10 + s, did('hand.say', 'I AUTHENTICATE')],
    ] as const;
  it('passes up to the limit itself', () => {
    expect(judge(recordOf(answered(20)), own)).toMatchObject({
      ...passed,
      value: '20.0 s, at 00 00 30',
      because: [2, 1],
    });
  });
  it('fails beyond it', () => {
    expect(judge(recordOf(answered(20.1)), own)).toMatchObject({ ...failed, value: '20.1 s, at 00 00 30' });
  });
  it('by however little, reads as beyond it', () => {
    expect(judge(recordOf(answered(20.03)), own)).toMatchObject({ ...failed, value: '20.1 s, at 00 00 30' });
  });
  it('is not exercised when the drill ends without an answer before the time is up', () => {
    const value = 'the drill ended at 00 00 10, with time left for it';
    expect(judge(recordOf([[10, far('challenged')]]), own)).toMatchObject({ ...idle, value });
    // An answer that came does not make up for one that was still due; a late one is late whatever was due.
    const due = [50, far('challenged')] as const;
    expect(judge(recordOf([...answered(5), due]), own)).toMatchObject(idle);
    expect(judge(recordOf([...answered(30), due]), own)).toMatchObject({ ...failed, because: [2, 1] });
  });
  it('is missed at the deadline, and not where it was asked for', () => {
    const until = (s: number, over: object = {}) =>
      judge(
        recordOf([
          [10, far('challenged')],
          [s, { k: 'end', why: 'x' }],
        ]),
        { ...own, ...over },
      );
    expect(until(100)).toMatchObject({ ...failed, value: 'nothing came by 00 00 30', at_us: 30e6, because: [1] });
    expect(until(30)).toMatchObject({ ...failed, at_us: 30e6 });
    expect(until(29)).toMatchObject(idle);
    expect(judge(recordOf(answered(35)), own)).toMatchObject({ ...failed, at_us: 30e6, because: [2, 1] });
    expect(judge(recordOf(answered(5)), own)).toMatchObject({ ...passed, at_us: 15e6 });
  });
  it('is not exercised when nothing asked', () => {
    expect(judge(recordOf([[1, did('hand.say', 'HELLO')]]), own)).toMatchObject(idle);
  });
  it('stretches only if told to', () => {
    const slow = recordOf(answered(35), { stretch: 2 });
    expect(judge(slow, own).go).toBe(true);
    expect(judge(slow, { ...own, stretch: false }).go).toBe(false);
  });
  it('the slowest of every one decides; or the first alone', () => {
    const record = recordOf([...answered(5), [30, far('challenged')], [55, did('hand.say', 'X')]]);
    expect(judge(record, own)).toMatchObject({
      ...failed,
      value: '25.0 s, at 00 00 55, the slowest of 2',
      because: [4, 3],
    });
    expect(judge(record, { ...own, which: 'first' }).go).toBe(true);
  });
});

describe('never', () => {
  const own = { kind: 'never', what: { k: 'far', what: 'covered' } };
  it('passes when there was occasion', () => {
    expect(judge(recordOf([[1, did('x', 1)]]), own)).toMatchObject({
      ...passed,
      value: 'no breach seen',
      because: [1],
    });
  });
  it('fails at the first one', () => {
    expect(
      judge(
        recordOf([
          [1, did('x', 1)],
          [2, far('covered')],
          [3, far('covered')],
        ]),
        own,
      ),
    ).toMatchObject({ ...failed, value: 'QV7K covered, twice, from 00 00 02 to 00 00 03', because: [2, 3] });
  });
  it('is not exercised without occasion', () => {
    expect(judge(recordOf([[1, was('x.y', 1)]]), own)).toMatchObject(idle);
    const given = { ...own, given: { k: 'air', station: 'QV4M', power_W: { above: 0 } } };
    expect(judge(recordOf([[1, did('x', 1)]]), given)).toMatchObject(idle);
    expect(judge(recordOf([[1, air(100)]]), given)).toMatchObject(passed);
  });
  it('only while quantities stand so, save what is excused', () => {
    const during = {
      kind: 'never',
      what: { k: 'do', control: 'motor' },
      while: [{ q: 'inverter.up', is: false }],
      unless: { value: false },
    };
    expect(
      judge(
        recordOf([
          [0, was('inverter.up', false)],
          [1, did('motor', true)],
        ]),
        during,
      ),
    ).toMatchObject({ ...failed, value: 'motor on with inverter not up, at 00 00 01', because: [2] });
    expect(
      judge(
        recordOf([
          [0, was('inverter.up', false)],
          [1, did('motor', false)],
        ]),
        during,
      ),
    ).toMatchObject(passed);
    expect(
      judge(
        recordOf([
          [0, was('inverter.up', true)],
          [1, did('motor', true)],
        ]),
        during,
      ),
    ).toMatchObject(idle);
  });
});

describe('lasted', () => {
  const own = {
    kind: 'lasted',
    while: [{ q: 'receiver.hearing', is: true }],
    seconds: 20,
    before: { k: 'air', station: 'QV4M', power_W: { above: 0 } },
  };
  it('passes when it held long enough, even if the moment itself ends it', () => {
    const record = recordOf([
      [5, was('receiver.hearing', true)],
      [25, was('receiver.hearing', false)],
      [25, air(100)],
    ]);
    expect(judge(record, own)).toMatchObject({ ...passed, value: '20.0 s', because: [3, 1, 2] });
  });
  it('fails when it was broken', () => {
    const record = recordOf([
      [5, was('receiver.hearing', true)],
      [20, was('receiver.hearing', false)],
      [21, was('receiver.hearing', true)],
      [30, air(100)],
    ]);
    expect(judge(record, own)).toMatchObject({ ...failed, value: '9.0 s' });
  });
  it('fails when it never held', () => {
    expect(judge(recordOf([[30, air(100)]]), own)).toMatchObject({ ...failed, value: 'not at all', because: [1] });
  });
  it('fails when it was over before', () => {
    expect(
      judge(
        recordOf([
          [0, was('receiver.hearing', true)],
          [29, was('receiver.hearing', false)],
          [30, air(1)],
        ]),
        own,
      ),
    ).toMatchObject({ ...failed, value: 'not at all' });
  });
  it('is not exercised when the moment never came', () => {
    expect(judge(recordOf([[5, was('receiver.hearing', true)]]), own)).toMatchObject(idle);
  });
  it('all conditions must hold at once', () => {
    const both = {
      ...own,
      while: [
        { q: 'a.x', is: 1 },
        { q: 'a.y', above: 2 },
      ],
    };
    expect(
      judge(
        recordOf([
          [0, was('a.x', 1)],
          [10, was('a.y', 3)],
          [25, air(1)],
        ]),
        both,
      ),
    ).toMatchObject({ ...failed, value: '15.0 s' });
    expect(
      judge(
        recordOf([
          [0, was('a.x', 1)],
          [5, was('a.y', 3)],
          [25, air(1)],
        ]),
        both,
      ),
    ).toMatchObject(passed);
  });
});

describe('copied', () => {
  const own = { kind: 'copied', at: 'QV7K', message: 'NR14', percent: 2 };
  const text = `\n${MESSAGE.join('\n')}\n`;
  it('passes a clean copy, with noise before and after', () => {
    expect(judge(recordOf(prints(`XQ${text}VV`, 'QV7K', 1)), own)).toMatchObject({
      ...passed,
      value: 'none of 65 characters wrong',
    });
  });
  it('passes with as many wrong as it may have', () => {
    expect(judge(recordOf(prints(text.replace('SAND', 'SANE'), 'QV7K', 1)), own)).toMatchObject({
      ...passed,
      value: '1 of 65 characters wrong (1.5 %)',
    });
  });
  it('fails with one more, and points at them', () => {
    const record = recordOf(prints(text.replace('SAND', 'SANE').replace('ROAD', 'RAAD'), 'QV7K', 1));
    const verdict = judge(record, own);
    expect(verdict).toMatchObject({ ...failed, value: '2 of 65 characters wrong (3.1 %)' });
    expect(verdict.because.slice(0, 2).map((i) => record.lines[i - 1])).toMatchObject([{ c: 'A' }, { c: 'E' }]);
  });
  it('is not exercised when nothing was printed there', () => {
    expect(judge(recordOf(prints(text, 'own', 1)), own)).toMatchObject(idle);
  });
  it('a later piece stands in for what was lost', () => {
    const lost = prints(text.replace('OPEN UNTIL 1600. BRING 40 BLANKETS', 'OPXXV'), 'QV7K', 1);
    const again = prints('ALL AFTER SAND QUAY\nOPEN UNTIL 1600. BRING 40 BLANKETS', 'QV7K', 60);
    expect(judge(recordOf(lost), own).go).toBe(false);
    expect(judge(recordOf([...lost, ...again]), own)).toMatchObject({
      ...passed,
      value: 'none of 65 characters wrong',
    });
  });
  it('a message that the papers lack is a fault of the program', () => {
    expect(() => judge(recordOf([]), { ...own, message: 'NR99' })).toThrow(RangeError);
  });
});

describe('logged', () => {
  const own = {
    kind: 'logged',
    entries: [{ like: '*CALL*QV7K*' }, { like: '*CLOSED*', near: { k: 'end' }, minutes: 1 }],
  };
  it('passes when each is there, near its moment', () => {
    const record = recordOf([
      [1, wrote('Called  QV7K on 4718')],
      [60, wrote('station closed')],
      [100, { k: 'end', why: 'x' }],
    ]);
    expect(judge(record, own)).toMatchObject({ ...passed, because: [1, 2] });
  });
  it('fails with a part of the points when one is missing or far off', () => {
    const record = recordOf([
      [1, wrote('CALLED QV7K')],
      [10, wrote('CLOSED')],
      [100, { k: 'end', why: 'x' }],
    ]);
    expect(judge(record, own)).toMatchObject({
      ...failed,
      points: 5,
      value: '1 of 2 entries; missing: CLOSED (logged at 09 40 00, not in its time)',
      because: [1],
    });
  });
  it('an empty log of a station that was worked is a fault; of one that was not, nothing', () => {
    const none = { value: 'no entry was made', points: 0 };
    const end = [9, { k: 'end', why: 'x' }] as const;
    // It is missed at the end, like a single entry.
    expect(judge(recordOf([[1, did('feed.isolator', true)], end]), own)).toMatchObject({
      ...failed,
      ...none,
      at_us: 9e6,
    });
    expect(judge(recordOf([[1, far('called')], end]), own)).toMatchObject({ ...idle, ...none, at_us: null });
    // To read the order works nothing yet.
    expect(judge(recordOf([[1, did('desk.order', true)], end]), own)).toMatchObject({ ...idle, ...none, at_us: null });
  });
  it('what is missing is missed at the end', () => {
    const record = recordOf([
      [1, wrote('CALLED QV7K')],
      [100, { k: 'end', why: 'x' }],
    ]);
    expect(judge(record, own)).toMatchObject({ ...failed, at_us: 100e6, because: [1] });
  });
});

describe('logged, with words in any order', () => {
  const own = {
    kind: 'logged',
    entries: [
      { like: ['QV7K|TERN NESS', 'CALL'], near: { k: 'far', what: 'called' } },
      { like: ['14', 'SENT|PASSED'], near: { k: 'far', what: 'receipting' } },
    ],
  };
  const events = [
    [100, far('called')],
    [200, far('receipting')],
  ] as const;
  const logs = (...lines: [number, string][]) =>
    recordOf([...lines.map(([s, text]) => [s, wrote(text)] as const), ...events].sort((a, b) => a[0] - b[0]));
  it('takes natural lines, and one of several words', () => {
    expect(judge(logs([110, 'Called Tern Ness'], [205, 'Passed NR 14']), own)).toMatchObject(passed);
  });
  it('one line stands for one entry', () => {
    expect(judge(logs([110, 'CALLED QV7K SENT 14']), own)).toMatchObject({ ...failed, points: 5 });
  });
  it('a line that two entries could have goes where both are served', () => {
    const two = logs([150, 'CALLED QV7K, SENT 14'], [210, 'AGAIN CALLED QV7K']);
    expect(judge(two, own)).toMatchObject(passed);
  });
  it('a line long before what it tells of is worth nothing, a minute before is as it begins', () => {
    expect(judge(logs([39, 'CALL QV7K'], [205, 'SENT 14']), own)).toMatchObject({ ...failed, points: 5 });
    expect(judge(logs([40, 'CALL QV7K'], [205, 'SENT 14']), own)).toMatchObject(passed);
  });
  it('nor is one that comes more than five minutes after', () => {
    expect(judge(logs([401, 'CALLED QV7K'], [402, 'SENT 14']), own)).toMatchObject({ ...failed, points: 5 });
  });
});

describe('printed', () => {
  const own = {
    kind: 'printed',
    at: 'own',
    like: '*R NR 14*',
    from: { k: 'far', what: 'receipting' },
    to: { k: 'far', what: 'receipted' },
    while: [{ q: 'printer.source', is: 'line' }],
    unless: { k: 'do', control: 'printer.key', value: 'R' },
  };
  const line = [0, was('printer.source', 'line')] as const;
  const bounds = [
    [10, far('receipting')],
    [20, far('receipted')],
  ] as const;
  const theirs = prints('QV4M DE QV7K\r\nR NR 14 K', 'own', 11);
  it('passes when the text came between the moments', () => {
    const record = recordOf([line, bounds[0], ...theirs, bounds[1]]);
    expect(judge(record, own)).toMatchObject({ ...passed, value: 'printed QV4M DE QV7K R NR 14 K' });
  });
  it('fails when it came before, after, at another printer or garbled', () => {
    const elsewhere = [
      [line, ...prints('R NR 14', 'own', 1), ...bounds],
      [line, ...bounds, ...prints('R NR 14', 'own', 21)],
      [line, bounds[0], ...prints('R NR 14', 'QV7K', 11), bounds[1]],
      [line, bounds[0], ...prints('RXNR 1R', 'own', 11), bounds[1]],
    ];
    for (const lines of elsewhere) expect(judge(recordOf(lines), own)).toMatchObject(failed);
  });
  it('fails when it was printed while the printer stood otherwise, or the own hand typed it', () => {
    const local = [0, was('printer.source', 'local')] as const;
    expect(judge(recordOf([local, bounds[0], ...theirs, bounds[1]]), own)).toMatchObject(failed);
    const typed = [11, did('printer.key', 'R')] as const;
    expect(judge(recordOf([line, bounds[0], typed, ...theirs, bounds[1]]), own)).toMatchObject(failed);
  });
  it('says what was printed when none of it counts, and why not', () => {
    const value = (...lines: Parameters<typeof recordOf>[0]) => judge(recordOf(lines), own).value;
    const local = [0, was('printer.source', 'local')] as const;
    const typed = [12, did('printer.key', 'R')] as const;
    expect(value(local, bounds[0], ...theirs, bounds[1])).toBe(
      'printed QV4M DE QV7K R NR 14 K, but with source local: it does not count',
    );
    expect(value(line, bounds[0], ...prints('R NR 14', 'own', 11), typed, bounds[1])).toBe(
      'printed R NR 14, but printer key R at 00 00 12: it does not count',
    );
    expect(value(line, ...bounds)).toBe('nothing was printed');
    // A time in which nothing came says less than one in which something did.
    const later = [[30, far('receipting')] as const, [40, far('receipted')] as const];
    expect(value(local, bounds[0], ...theirs, bounds[1], ...later)).toMatch(/^printed QV4M/);
  });
  it('is tried, though not met, when all that was printed does not count', () => {
    const test = { kind: 'printed', at: 'own', while: own.while, letters: 3 };
    const local = [0, was('printer.source', 'local')] as const;
    expect(judge(recordOf([local, ...prints('FOX', 'own', 1)]), test)).toMatchObject(failed);
    expect(judge(recordOf([local]), test)).toMatchObject(idle);
  });
  it('one good time of several is enough', () => {
    const again = [[40, far('receipting')], ...prints('R NR 14', 'own', 41), [50, far('receipted')]] as const;
    expect(judge(recordOf([line, ...bounds, ...again]), own)).toMatchObject(passed);
  });
  it('is not exercised when the moment never came', () => {
    expect(judge(recordOf([line, ...theirs]), own)).toMatchObject(idle);
  });
  it('counts letters and figures from the beginning when no moment is given', () => {
    const test = { kind: 'printed', at: 'own', to: { k: 'air' }, letters: 3, figures: 3 };
    const first = [30, air(1)] as const;
    expect(judge(recordOf([...prints('FOX 123', 'own', 1), first]), test)).toMatchObject(passed);
    expect(judge(recordOf([...prints('FOX 12', 'own', 1), first]), test)).toMatchObject(failed);
    expect(judge(recordOf([first, ...prints('FOX 123', 'own', 31)]), test)).toMatchObject(idle);
  });
});

describe('lasted, when only some moments count', () => {
  const own = {
    kind: 'lasted',
    while: [{ q: 'line.lever', is: 'OUT' }],
    seconds: 3,
    before: { k: 'print', at: 'own' },
    during: [{ q: 'line.lever', is: 'OUT' }],
  };
  it('passes over a moment at which they do not stand', () => {
    const record = recordOf([
      [0, was('line.lever', 'IN')],
      ...prints('A', 'own', 1),
      [10, was('line.lever', 'OUT')],
      ...prints('B', 'own', 14),
    ]);
    expect(judge(record, own)).toMatchObject({ ...passed, value: '4.0 s' });
  });
  it('is not exercised when they never stood', () => {
    expect(judge(recordOf([[0, was('line.lever', 'IN')], ...prints('A', 'own', 1)]), own)).toMatchObject(idle);
  });
});

describe('airtime', () => {
  const own = { kind: 'airtime', seconds: 30 };
  const on = (from: number, to: number, W = 50) =>
    [
      [from, air(W)],
      [to, air(0)],
    ] as const;
  it('passes up to the limit, over several carriers, however weak', () => {
    expect(judge(recordOf([...on(1, 11, 0.3), ...on(20, 40)]), own)).toMatchObject({
      ...passed,
      value: '30.0 s in all',
      because: [3, 1],
    });
  });
  it('fails beyond it; what is not over counts to the end', () => {
    const record = recordOf([
      [1, air(50)],
      [32, { k: 'end', why: 'x' }],
    ]);
    // Spent at 31 s, thirty after it began.
    expect(judge(record, own)).toMatchObject({ ...failed, value: '31.0 s', at_us: 31e6, because: [1] });
  });
  it('beyond it by a part of a second reads so', () => {
    const told = (s: number) => judge(recordOf([...on(1, 1 + s)]), { ...own, seconds: 180 });
    expect(told(180.4)).toMatchObject({ ...failed, value: '3 min 00.4 s' });
    expect(told(180)).toMatchObject({ ...passed, value: '3 min 00 s' });
    expect(told(179.9)).toMatchObject({ ...passed, value: '2 min 59 s' });
  });
  it('is not exercised when the own station was never on the air', () => {
    expect(
      judge(
        recordOf([
          [1, air(0)],
          [2, air(50, 'QV9B')],
        ]),
        own,
      ),
    ).toMatchObject(idle);
  });
});

describe('what was seen, in words', () => {
  const never = { kind: 'never', what: { k: 'far', what: 'puzzled' }, given: { k: 'far', what: 'called' } };
  const calls = recordOf([
    [1, far('called')],
    [7.5, air(100)],
    [9, air(0)],
    [20, air(100)],
    [21, air(0)],
  ]);
  it('counts what there was instead, and tells how soon it came', () => {
    const instead = { k: 'air', power_W: 0 };
    expect(judge(calls, { ...never, kept: 'no fault in {calls}', instead }).value).toBe('no fault in 2 calls');
    expect(judge(calls, { ...never, kept: 'no fault in {calls}' }).value).toBe('no fault in 1 call');
    const begun = { k: 'air', power_W: { above: 0 } };
    expect(judge(calls, { ...never, kept: 'right after {after}', instead: begun }).value).toBe('right after 6.5 s');
    expect(judge(calls, never).value).toBe('no breach seen');
  });
  it('tells what stood between the occasion and the fault, and for how long', () => {
    const stop = { k: 'mode', box: 'inverter', mode: 'still' };
    const own = { kind: 'never', what: stop, given: stop, while: [{ q: 'printer.motor', is: true }] };
    const record = recordOf([
      [0, was('printer.motor', true)],
      [10, was('printer.motor', false)],
      [22, { k: 'mode', box: 'inverter', mode: 'still' }],
    ]);
    expect(judge(record, own)).toMatchObject({ ...passed, value: 'printer not motor 12.0 s before', because: [3] });
  });
  it('uses the names that a scenario gives to moments and entries', () => {
    const moments = [{ k: 'far', what: 'called' }, { k: 'log' }];
    const own = { kind: 'order', moments, names: ['their call', 'the entry'] };
    expect(judge(calls, own).value).toBe('missing: the entry');
    const entries = [{ like: 'CLOSED', name: 'close' }];
    expect(judge(recordOf([[1, wrote('OPEN')]]), { kind: 'logged', entries }).value).toBe(
      '0 of 1 entries; missing: close',
    );
    const need = [{ q: 'aerial.guard', is: true }];
    const on = recordOf([
      [1, was('aerial.guard', false)],
      [2, far('called')],
    ]);
    expect(judge(on, { kind: 'state', at: { k: 'far' }, need, moment: 'as they called' }).value).toBe(
      'aerial not guard as they called at 00 00 02',
    );
  });
});
