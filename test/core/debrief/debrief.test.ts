import { describe, expect, it } from 'vitest';
import { debrief } from '../../../src/core/debrief/debrief.ts';
import { explain } from '../../../src/core/debrief/explain.ts';
import { mark } from '../../../src/core/marking/marking.ts';
import type { DrillRecord } from '../../../src/core/record/record.ts';
import type { Action, Scenario } from '../../../src/core/scenario/scenario.ts';
import { air, did, far, prints, recordOf, was, wrote } from '../marking/record-maker.ts';
import { changed, sample } from '../scenario/sample.ts';

const COPIED = `measures:
  - id: text-right
    title: Text as received at Tern Ness
    kind: copied
    weight: 10
    standard: at most 1 % wrong
    at: "QV7K"
    message: NR14
    percent: 1
    why: One wrong letter is one too many.
    next: Check the tape.
`;
const scenario: Scenario = sample(1, changed('measures:\n', COPIED));
const message = scenario.papers.messages[0]?.lines.join('\n') as string;

function debriefOf(record: DrillRecord) {
  return debrief(record, mark(record, scenario), scenario);
}

const colour = scenario.drawn['colour'] as string;
const good = recordOf([
  [0, was('lamp.lit', true)],
  [1, did('lamp.power', true)],
  [2, did('lamp.colour', colour)],
  [3, did('lamp.flash', true)],
  [10, air(80)],
  [12, air(0)],
  [14, did('hand.say', 'I AUTHENTICATE ALFA BRAVO')],
  [15, { k: 'spoke', station: 'QV4M', words: 'I AUTHENTICATE ALFA BRAVO', by: 'voice', from_us: 14_000_000 }],
  ...prints(message, 'QV7K', 20),
  [40, wrote('LAMP LIT')],
  [41, { k: 'end', why: 'handed over' }],
]);
const bad = recordOf(
  [
    [0, was('lamp.lit', false)],
    [5, did('lamp.power', true)],
    [6, { k: 'help', what: 'step power' }],
    [7, { k: 'interruption', wall_ms: 65_000, why: 'page closed' }],
    [8, far('challenged')],
    [10, air(80)],
    ...prints(message.replace('LAMP', 'LXMP'), 'QV7K', 20),
    [60, { k: 'end', why: 'out of time' }],
  ],
  { stretch: 2, manner: 'assessed' },
);

describe('a debrief', () => {
  it('of a good drill has no findings', () => {
    const d = debriefOf(good);
    expect(d).toMatchObject({ verdict: 'GO', score: 100, findings: [], ended: 'handed over', end_us: 41e6, helps: 0 });
    expect(d.air).toEqual([{ from_us: 10e6, to_us: 12e6 }]);
    expect(d.air_us).toBe(2e6);
  });
  it('of a bad one says for each measure when, what, why and what next, critical ones first', () => {
    const d = debriefOf(bad);
    expect(d.verdict).toBe('NO-GO');
    expect(d.findings.map((f) => f.measure)).toEqual(['lit', 'text-right']);
    expect(d.findings[0]).toMatchObject({
      at_us: 5e6,
      utc: '09 40 05',
      head: 'Not met: Lamp lit',
      critical: true,
      expected: 'lit',
      happened: 'lamp not lit at 09 40 05 (lamp power on)',
      why: 'It is dark.',
      next: 'Put the switch in.',
      because: [2, 1],
    });
    for (const f of d.findings) for (const i of f.because) expect(bad.lines[i - 1]?.i).toBe(i);
    expect(d.interruptions).toEqual([{ at_us: 7e6, wall_ms: 65_000, why: 'page closed' }]);
    // A carrier that never went down stands to the end.
    expect(d.air).toEqual([{ from_us: 10e6, to_us: 60e6 }]);
    expect(d.helps).toBe(1);
  });
  it('of nothing at all says that nothing was exercised', () => {
    const d = debriefOf(recordOf([]));
    expect(d).toMatchObject({ verdict: 'NO-GO', score: 0, end_us: 0, ended: 'not ended', air: [], timeline: [] });
    expect(d.findings.map((f) => f.head)).toEqual(['Not tried: Lamp lit', 'Not tried: Text as received at Tern Ness']);
    expect(explain(d)).toContain('Never on the air.');
    expect(explain(d)).toContain('\n  Not tried: Lamp lit - must be met\n');
    expect(explain(d)).toContain('Nothing was tried that is marked.');
    expect(explain(d)).not.toContain('must be met, and');
    expect(explain(d)).toContain('happened  the moment never came: lamp power on');
  });
  it('tells a missed deadline and a missed end where they were missed', () => {
    const asked = [
      { id: 'late', kind: 'within', from: { t: 0 }, to: { k: 'far', what: 'receipted' }, seconds: 30 },
      {
        id: 'out',
        kind: 'order',
        moments: [
          { k: 'far', what: 'called' },
          { k: 'far', what: 'closed' },
        ],
      },
    ];
    const common = { weight: 1, critical: false, standard: 's', why: 'w', next: 'n' };
    const own = { ...scenario, measures: asked.map((m) => ({ ...common, title: m.id, ...m })) } as unknown as Scenario;
    const record = recordOf([
      [0, was('lamp.lit', true)],
      [5, far('called')],
      [40, wrote('LAMP LIT')],
      [50, { k: 'end', why: 'handed over' }],
    ]);
    const d = debrief(record, mark(record, own), own);
    expect(d.findings.map((f) => [f.measure, f.utc])).toEqual([
      ['late', '09 40 30'],
      ['out', '09 40 50'],
    ]);
    expect(d.timeline.map((e) => `${e.utc} ${e.title}`)).toEqual([
      '09 40 05 QV7K called',
      '09 40 30 Not met: late - nothing came by 09 40 30',
      '09 40 40 In the log: LAMP LIT',
      '09 40 50 End: handed over',
      '09 40 50 Not met: out - missing: a station closed',
    ]);
  });
  it('has a flag that is whole, or ends in dots at a word', () => {
    const flag = (title: string) => {
      const own = { ...scenario, measures: scenario.measures.map((m) => ({ ...m, title })) };
      return debrief(bad, mark(bad, own), own).findings[0]?.flag;
    };
    expect(flag('Nobody put in danger')).toBe('Nobody put in danger');
    expect(flag('Guard on and earth made before heat')).toBe('Guard on and earth made before heat');
    expect(flag('Own reply right and in time, at the first challenge')).toBe('Own reply right and in time, at the ...');
    expect(flag('A'.repeat(40))).toBe(`${'A'.repeat(36)} ...`);
  });
  it('puts what must be met first, even when it happened later', () => {
    const late = recordOf([...prints('X', 'QV7K', 1), [50, was('lamp.lit', false)], [51, did('lamp.power', true)]]);
    expect(debriefOf(late).findings.map((f) => [f.measure, f.at_us])).toEqual([
      ['lit', 51e6],
      // The shift to letters is the first character of 150 ms, X the second.
      ['text-right', 1.15e6],
    ]);
  });
  it('finds the same act once for each phase that asks for it', () => {
    const [first] = scenario.steps;
    const twice = {
      ...scenario,
      steps: ['in', 'out', 'in-again'].map((phase, n) => ({
        ...first!,
        id: phase,
        phase,
        do: [{ set: { 'lamp.power': n !== 1 } }],
      })),
    };
    const record = recordOf([
      [1, did('lamp.power', true)],
      [2, did('lamp.power', false)],
      [3, did('lamp.power', true)],
    ]);
    const { moments } = debrief(record, mark(record, twice), twice);
    expect(moments.map((m) => [m.label, m.happened?.from_us])).toEqual([
      ['In', 1e6],
      ['Out', 2e6],
      ['In again', 3e6],
    ]);
    // One after the other, sharing the expert's time.
    expect(moments.map((m) => m.expected.from_us)).toEqual([0, 20e6, 40e6]);
  });
  /** The sample with these phases, each of one step. */
  const phased = (...steps: [phase: string, todo: Action[]][]): Scenario => {
    const [first] = scenario.steps;
    return { ...scenario, steps: steps.map(([phase, todo], n) => ({ ...first!, id: `s${n}`, phase, do: todo })) };
  };
  const happenedOf = (record: DrillRecord, own: Scenario) =>
    debrief(record, mark(record, own), own).moments.map(({ label, happened }) => [
      label,
      happened && [happened.from_us / 1e6, happened.to_us / 1e6],
    ]);

  it('a phase ends when the next begins, and no later touch of its controls stretches it', () => {
    const own = phased(
      ['look', [{ press: ['lamp.flash'] }, { set: { 'lamp.level': 3, 'lamp.power': false } }]],
      ['power', [{ set: { 'lamp.power': true } }]],
      ['close', [{ set: { 'lamp.power': false } }, { press: ['lamp.flash'] }]],
    );
    // The lamp is out already at the beginning, so only the closing puts it out.
    const record = recordOf([
      [0, did('lamp.flash', true)],
      [4, did('lamp.level', 3)],
      [10, did('lamp.power', true)],
      [200, did('lamp.power', false)],
      [210, did('lamp.flash', true)],
      [220, { k: 'end', why: 'handed over' }],
    ]);
    expect(happenedOf(record, own)).toEqual([
      ['Look', [0, 10]],
      ['Power', [10, 200]],
      ['Close', [200, 210]],
    ]);
  });
  it('a phase ends with its last act where the next asks for none, and one out of turn is told where it came', () => {
    const own = phased(
      ['look', [{ press: ['lamp.flash'] }]],
      ['power', [{ set: { 'lamp.power': true, 'lamp.level': 2 } }]],
      ['listen', [{ wait: 20 }]],
      ['close', [{ set: { 'lamp.power': false, 'lamp.level': 0 } }]],
    );
    const record = recordOf([
      [10, did('lamp.power', true)],
      [12, did('lamp.level', 2)],
      [40, did('lamp.power', false)],
      [41, did('lamp.level', 0)],
      [50, did('lamp.flash', true)],
    ]);
    expect(happenedOf(record, own)).toEqual([
      ['Look', [50, 50]],
      ['Power', [10, 12]],
      ['Close', [40, 41]],
    ]);
  });
  it('an expert takes for a tape what it takes to run, and says nothing twice', () => {
    const lines = ['X'.repeat(200)];
    const papers = { ...scenario.papers, messages: scenario.papers.messages.map((m) => ({ ...m, lines })) };
    const repeat: Action = { again: 3, until: { heard: 'ROGER' }, do: [{ say: 'SAY AGAIN OVER' }, { wait: 60 }] };
    const own: Scenario = {
      ...phased(
        ['cut', [{ punch: 'NR14' }, { press: ['lamp.flash'] }]],
        ['send', [{ set: { 'tape.run': true } }]],
        ['offer', [{ say: 'OFFER OVER' }, repeat]],
      ),
      papers,
    };
    const spans = debriefOfMoments(own);
    // Keys at 0.18 s against 7.5 units at 50 Bd, 0.15 s; two words at 0.4 s and two moves at 0.7 s.
    expect(spans[0]! / spans[1]!).toBeCloseTo((200 * 0.18 + 0.9) / (200 * 0.15 + 0.7), 2);
    expect(spans[2]! / spans[1]!).toBeCloseTo(2.2 / (200 * 0.15 + 0.7), 2);
  });
  const debriefOfMoments = (own: Scenario): number[] => {
    const record = recordOf([]);
    return debrief(record, mark(record, own), own).moments.map(({ expected: e }) => e.to_us - e.from_us);
  };
  it('sets what was expected beside what was done', () => {
    const [moment] = debriefOf(good).moments;
    expect(moment?.label).toBe('Power');
    // From the first act that the phase asks for (lamp in, 1 s) to the last (the reply, 14 s).
    expect(moment?.happened).toEqual({ from_us: 1e6, to_us: 14e6 });
    expect(moment?.expected).toEqual({ from_us: 0, to_us: scenario.minutes.expert * 60e6 });
    expect(debriefOf(recordOf([])).moments[0]?.happened).toBeNull();
  });
});

describe('letters that went wrong', () => {
  const garble = (record: DrillRecord) => debriefOf(record).garbles[0];
  it('which letter and which of its units', () => {
    // ITU-T S.1: A is units 1 2, X is units 1 3 4 5, so 2, 3, 4 and 5 differ.
    expect(garble(bad)?.wrong).toMatchObject([{ at: 1, want: 'A', got: 'X', how: 'wrong', units: [2, 3, 4, 5] }]);
    expect(bad.lines[(garble(bad)?.wrong[0]?.line ?? 0) - 1]).toMatchObject({ k: 'print', c: 'X' });
  });
  it('a lost shift is the case, not the units', () => {
    // A sent in figures case prints "-" from the same units (ITU-T S.1, No. 1).
    const lines = prints(message, 'QV7K', 1).map(
      ([t, b]) => [t, b.k === 'print' && b.c === 'A' ? { ...b, c: '-' } : b] as const,
    );
    expect(garble(recordOf(lines))?.wrong[0]).toMatchObject({ want: 'A', got: '-', how: 'case', units: [] });
  });
  it('missing and too many', () => {
    expect(garble(recordOf(prints(message.replace('LAMP', 'LMP'), 'QV7K', 1)))?.wrong).toMatchObject([
      { want: 'A', got: '', how: 'missing', line: null },
    ]);
    expect(garble(recordOf(prints(message.replace('LAMP', 'LATMP'), 'QV7K', 1)))?.wrong).toMatchObject([
      { want: '', got: 'T', how: 'extra' },
    ]);
  });
  it('nothing printed is no garble', () => {
    expect(debriefOf(recordOf([])).garbles).toEqual([]);
  });
});

describe('as text', () => {
  it('answers the four questions in order', () => {
    const text = explain(debriefOf(bad));
    const heads = ['WHAT WAS PLANNED', 'WHAT HAPPENED', 'WHAT TO WORK ON'].map((h) => text.indexOf(h));
    expect(heads.every((at, i) => at > (heads[i - 1] ?? -1))).toBe(true);
    expect(text).toContain('Light the lamp: NO-GO, 0.0 of 100 (pass 80)');
    expect(text).toContain('This must be met, and was not: Lamp lit.');
    expect(text).toContain('Worked assessed, seed 1, time limits 2 times longer, 1 min 00 s, ended: out of time.');
    expect(text).toContain('Interrupted at 09 40 07 for 1 min 05 s: page closed.');
    expect(text).toContain('L[A]MP IS');
    expect(text).toContain('units 2, 3, 4, 5 wrong');
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(110);
  });
  it('of a good drill says so, and what to keep', () => {
    const text = explain(debriefOf(good));
    expect(text).toContain('Nothing: every measure was met.');
    expect(text).toContain('WHAT TO KEEP');
    expect(text.endsWith('\n')).toBe(true);
  });
});
