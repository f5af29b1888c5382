/**
 * A mark can be proved fair: for every measure of first-call a hand with one fault, which fails that measure and nothing but
 * what truly follows from the fault; and hands that do it right in another way, which pass everything. Each is the model
 * operator's own work with one thing changed.
 */
import { describe, expect, it } from 'vitest';
import type { Drill } from '../../src/core/drill.ts';
import { Guide } from '../../src/core/guide/guide.ts';
import { workThrough } from '../../src/core/hand/model.ts';
import { mark } from '../../src/core/marking/marking.ts';
import type { Action, Scenario, Step } from '../../src/core/scenario/scenario.ts';
import { begin, scenarioOf } from './first-call.ts';

const SEED = 6;
const scenario = scenarioOf(SEED);

/** Steps that share remembered words are worked in one go. */
const TOGETHER: Readonly<Record<string, string>> = { prove: 'call' };

/** The right hand's drill as it stood before each step, and its end. */
function rightHand(): { before: Map<string, string>; drill: Drill } {
  const before = new Map<string, string>();
  const drill = begin(SEED);
  const groups = new Map<string, Step[]>();
  for (const step of scenario.steps) {
    const id = TOGETHER[step.id] ?? step.id;
    groups.set(id, [...(groups.get(id) ?? []), step]);
  }
  for (const [id, steps] of groups) {
    before.set(id, drill.save());
    workThrough({ ...scenario, steps }, drill, SEED);
  }
  return { before, drill };
}
const right = rightHand();

/** One change: where it begins, what becomes of the steps from there on, what is touched just before, what is on the form. */
type Hand = {
  from?: string;
  change?: (steps: Step[]) => Step[];
  touch?: (drill: Drill) => void;
  form?: (line: string) => string;
};

function work({ from = 'order', change = (x) => x, touch, form = (x) => x }: Hand) {
  const drill = begin(SEED, JSON.parse(right.before.get(from) as string));
  touch?.(drill);
  const steps = change(structuredClone(scenario.steps.slice(scenario.steps.findIndex((s) => s.id === from))));
  const messages = scenario.papers.messages.map((m) => ({ ...m, lines: m.lines.map(form) }));
  const own: Scenario = { ...scenario, steps, papers: { ...scenario.papers, messages } };
  workThrough(own, drill, SEED);
  return drill;
}

const failed = (hand: Hand): string[] =>
  mark(work(hand).record, scenario)
    .measures.filter((m) => !m.go)
    .map((m) => m.id)
    .sort();

/** In step `id` put `to` for `what`, in the step's own text. Throws when it is not there. */
const swap =
  (id: string, what: string, to: string) =>
  (steps: Step[]): Step[] =>
    steps.map((s) => {
      if (s.id !== id) return s;
      const text = JSON.stringify(s);
      if (!text.includes(what)) throw new RangeError(`step ${id} has no ${what}`);
      return JSON.parse(text.replaceAll(what, to)) as Step;
    });
/** Other acts for step `id`, made from its own; its end is not waited for. */
const acts =
  (id: string, make: (own: Action[]) => Action[]) =>
  (steps: Step[]): Step[] =>
    steps.map(({ done, ...s }) => (s.id === id ? { ...s, do: make(s.do) } : done === undefined ? s : { ...s, done }));
const drop =
  (id: string) =>
  (steps: Step[]): Step[] =>
    steps.filter((s) => s.id !== id);
const all =
  (...changes: ((steps: Step[]) => Step[])[]) =>
  (steps: Step[]): Step[] =>
    changes.reduce((now, change) => change(now), steps);

const US = 'QUEBEC VICTOR SEVEN KILO THIS IS QUEBEC VICTOR FOUR MIKE';
const set = (what: Record<string, string | number | boolean>): Action => ({ set: what });

type Fault = [what: string, hand: Hand, fails: string[]];

const WRONG: Fault[] = [
  [
    'the guard is put on only after heat',
    {
      change: all(
        acts('outside', (own) => [
          ...own.slice(0, 2),
          set({ 'aerial.earth': true, 'aerial.counterpoise': 4, 'aerial.guard': false }),
        ]),
        acts('heat', (own) => [...own, set({ 'aerial.guard': true })]),
      ),
    },
    ['guard-and-earth'],
  ],
  [
    'the earth is forgotten until after heat',
    {
      from: 'outside',
      change: all(
        swap('outside', '"aerial.earth":true,', ''),
        acts('outside', (own) => own),
        acts('heat', (own) => [...own, set({ 'aerial.earth': true })]),
      ),
    },
    ['guard-and-earth'],
  ],
  [
    'the guard is taken off once the sender is hot',
    {
      from: 'match',
      change: all(
        acts('match', (own) => [set({ 'aerial.guard': false }), ...own]),
        acts('cool', (own) => [...own, set({ 'aerial.guard': true })]),
      ),
    },
    ['nothing-unsafe'],
  ],
  [
    'the printer motor is on while the inverter runs up',
    {
      from: 'inverter',
      change: acts('inverter', ([first, press, until]) => [first!, press!, set({ 'printer.motor': true }), until!]),
    },
    ['power-in-order'],
  ],
  [
    'no print in local before the first emission',
    {
      from: 'printer',
      // Proved and cut only when the sender has been matched.
      change: (steps) => {
        const late = steps.filter((s) => s.id === 'printer' || s.id === 'cut');
        return steps.filter((s) => !late.includes(s)).flatMap((s) => (s.id === 'match' ? [s, ...late] : [s]));
      },
    },
    ['printer-proved'],
  ],
  [
    'low power throughout',
    {
      from: 'match',
      change: all(
        swap('match', '"full"', '"low"'),
        acts('match', (own) => own),
      ),
    },
    ['power-back'],
  ],
  [
    'two of the wires are taken up after the match',
    { from: 'call', touch: (d) => void d.act('aerial.counterpoise', 2) },
    ['power-back'],
  ],
  [
    'the dial is almost a quarter of the shift off as the receipt prints',
    {
      from: 'receipt',
      change: acts('receipt', (own) => [{ wait: 25 }, ...own.slice(-1)]),
      touch: (d) => {
        const off_kHz = (d.station.state.wires.rx.tuned_Hz - 4_718_000) / 1000;
        d.act('receiver.fine', Number((Number(d.standing('receiver.fine')) - off_kHz + 0.09).toFixed(2)));
      },
    },
    ['dial-true'],
  ],
  [
    'listening on another band',
    {
      from: 'listen',
      change: acts('listen', () => [
        { wait: 60 },
        set({ 'receiver.band': '2' }),
        { wait: 25 },
        set({ 'receiver.band': '4' }),
        { wait: 1 },
      ]),
    },
    ['listened'],
  ],
  // Who does not listen does not hear that others talk.
  [
    'not listening at all, and a carrier into their talk',
    {
      from: 'listen',
      change: all(
        drop('listen'),
        acts('match', (own) => [...own, { until: { quiet: 30 }, within: 180 }]),
      ),
    },
    ['channel-clear', 'listened'],
  ],
  [
    'the key goes down while they speak to us',
    {
      from: 'call',
      change: acts('challenge', (own) => [
        ...own.slice(0, 2),
        { wait: 5.5 },
        { hold: { control: 'hand.talk', do: [{ wait: 1 }] } },
        { wait: 16 },
        ...own.slice(3),
      ]),
    },
    ['channel-clear'],
  ],
  [
    'the first call is own call sign first',
    {
      from: 'call',
      change: acts('call', ([first, ...own]) => [
        first!,
        { say: 'QUEBEC VICTOR FOUR MIKE THIS IS QUEBEC VICTOR SEVEN KILO OVER' },
        { wait: 14 },
        ...own,
      ]),
    },
    ['call-form'],
  ],
  [
    'five calls without THIS IS, then a right one',
    {
      from: 'call',
      change: acts('call', ([first, ...own]) => [
        first!,
        ...Array.from({ length: 5 }, (): Action[] => [
          { say: `${US.replace('THIS IS ', '')} OVER` },
          { wait: 14 },
        ]).flat(),
        ...own,
      ]),
    },
    ['call-form'],
  ],
  [
    'the first call has no OVER',
    { from: 'call', change: acts('call', ([first, ...own]) => [first!, { say: US }, { wait: 14 }, ...own]) },
    ['call-form'],
  ],
  // The log entry of a recognition that never was is worth nothing.
  ['they are never challenged', { from: 'challenge', change: drop('challenge') }, ['log', 'recognition']],
  [
    'the message is offered before they are challenged',
    { from: 'challenge', change: (steps) => [steps[1]!, steps[0]!, ...steps.slice(2)] },
    ['recognition'],
  ],
  [
    'the reply comes after half a minute',
    {
      from: 'call',
      change: acts('prove', (own) => [{ wait: 25 }, { hear: 'AUTHENTICATE <row> <column> OVER', within: 30 }, ...own]),
    },
    ['reply-in-time'],
  ],
  [
    'the first reply is wrong',
    {
      from: 'call',
      change: acts('prove', ([look, , ...own]) => [look!, { say: `${US} I AUTHENTICATE ALFA ALFA OVER` }, ...own]),
    },
    ['reply-in-time'],
  ],
  [
    'the tape runs a second after the carrier is up',
    { from: 'send', change: acts('send', (own) => own.map((a) => ('wait' in a && a.wait === 5 ? { wait: 1 } : a))) },
    ['steady-mark'],
  ],
  [
    'words are typed twice',
    { from: 'cut', form: (line) => (line.startsWith('TO ') ? 'TO TERN NESS TERN NESS' : line) },
    ['text-right'],
  ],
  [
    'the receipt is missed, and R typed in local instead',
    {
      from: 'receipt',
      change: acts('receipt', (own) => [
        set({ 'printer.source': 'local' }),
        { until: { see: 'keyer.lock', is: true }, within: 60 },
        { type: 'R NR 14' },
        { until: { see: 'keyer.lock', is: false }, within: 60 },
        { wait: 5 },
        { type: 'R NR 14' },
        own[own.length - 1]!,
      ]),
    },
    ['receipt'],
  ],
  [
    'the dial is 600 Hz off, and R typed by the own hand while theirs comes',
    {
      from: 'receipt',
      touch: (d) => void d.act('receiver.fine', Number((Number(d.standing('receiver.fine')) + 0.6).toFixed(2))),
      change: acts('receipt', (own) => [{ wait: 8 }, { type: 'R NR 14' }, { wait: 17 }, ...own.slice(-1)]),
    },
    ['dial-true', 'receipt'],
  ],
  [
    'thirty-five minutes are lost at the beginning',
    { change: acts('order', (own) => [...own, { wait: 2100 }]) },
    ['receipt-in-time'],
  ],
  [
    'one log line before anything stands for all',
    {
      change: all(
        ...['call', 'challenge', 'send', 'receipt', 'cool', 'hand-over'].map((id) =>
          acts(id, (own) => own.filter((a) => !('log' in a))),
        ),
        acts('order', (own) => [...own, { log: 'CALL QV7K RECOGN SENT NR 14 RECEI CLOSE' }]),
      ),
    },
    ['log'],
  ],
  ['the contact is not ended', { from: 'end', change: drop('end') }, ['ended']],
  [
    'OUT is said into the void: the lever is IN and the emission still print',
    {
      from: 'end',
      change: all(
        acts('end', (own) => own.slice(1)),
        acts('cool', (own) => [set({ 'sender.emission': 'A3E' }), ...own]),
      ),
    },
    ['ended'],
  ],
  ['the receipt is not logged', { from: 'receipt', change: acts('receipt', (own) => own.slice(0, -1)) }, ['log']],
  [
    'the inverter breaker is pulled under the running printer',
    { from: 'down', change: acts('down', (own) => [set({ 'feed.inverter': false }), { wait: 2 }, ...own]) },
    ['motors-first'],
  ],
  [
    'the battery is switched off with the sender at heat',
    {
      from: 'cool',
      change: all(
        acts('cool', (own) => own.slice(0, -1)),
        swap('down', '"feed.sender":false,', ''),
        swap('down', '"feed.isolator":false', '"feed.isolator":false,"feed.sender":false,"sender.readiness":"off"'),
      ),
    },
    ['sender-before-battery'],
  ],
  [
    'the battery is switched off under the inverter',
    {
      from: 'down',
      change: all(
        swap('down', '"inverter.lever":"off","feed.inverter":false,', ''),
        swap('down', '"feed.isolator":false', '"feed.isolator":false,"inverter.lever":"off","feed.inverter":false'),
      ),
    },
    ['inverter-before-battery'],
  ],
  [
    'the log is signed before the battery is off',
    {
      from: 'down',
      change: all(
        acts('down', (own) => [{ log: 'STATION CLOSED' }, { press: ['desk.sign'] }, ...own]),
        acts('hand-over', (own) => [
          ...own.filter((a) => !('log' in a) && !('press' in a && a.press.includes('desk.sign'))),
          { press: ['desk.handover'] },
        ]),
      ),
    },
    ['closed-down'],
  ],
  [
    'the heaters go off after five seconds',
    { from: 'cool', change: swap('cool', '"wait":31', '"wait":5') },
    ['valves-cooled'],
  ],
  [
    'the switch is held for two minutes',
    {
      from: 'end',
      change: acts('end', (own) => [own[0]!, { hold: { control: 'hand.talk', do: [{ wait: 120 }] } }, ...own.slice(1)]),
    },
    ['airtime'],
  ],
];

const OTHERWISE: [what: string, hand: Hand][] = [
  [
    'the lever goes from off to send at once',
    { from: 'heat', change: swap('heat', '"sender.readiness":"heat"', '"sender.readiness":"send"') },
  ],
  // The receiver creeps while it warms up; whoever calibrated early and copies late is still right.
  [
    'ten minutes go by between tuning and listening',
    { from: 'listen', change: acts('listen', (own) => [{ wait: 600 }, ...own]) },
  ],
  [
    'the call sign is said twice',
    {
      from: 'call',
      change: swap(
        'call',
        'QUEBEC VICTOR SEVEN KILO THIS IS',
        'QUEBEC VICTOR SEVEN KILO QUEBEC VICTOR SEVEN KILO THIS IS',
      ),
    },
  ],
  [
    'reply and challenge in one breath',
    {
      from: 'call',
      change: all(
        acts('prove', ([look]) => [
          look!,
          { choose: { row: 'myrow', column: 'mycolumn' } },
          { say: `${US} I AUTHENTICATE {reply} AUTHENTICATE {myrow} {mycolumn} OVER` },
          { hear: 'I AUTHENTICATE <first> <second> OVER', within: 30 },
          { check: { row: 'myrow', column: 'mycolumn', heard: ['first', 'second'], as: 'genuine' } },
          { until: { remembered: 'genuine', is: true }, within: 1 },
          { log: 'RECOGNITION BOTH WAYS QV7K' },
        ]),
        drop('challenge'),
      ),
    },
  ],
  [
    'the tape is proved in local first',
    {
      from: 'cut',
      change: acts('cut', (own) => [
        ...own,
        set({ 'tape.run': true }),
        { wait: 10 },
        set({ 'tape.run': false }),
        { press: ['tape.rewind'] },
      ]),
    },
  ],
  [
    'the message is sent from the keyboard',
    {
      from: 'send',
      change: acts('send', (own) =>
        own.flatMap((a): Action[] =>
          'set' in a && a.set['tape.run'] === true
            ? [{ type: '\n' }, { punch: 'NR14' }]
            : 'until' in a || ('set' in a && 'tape.run' in a.set)
              ? []
              : [a],
        ),
      ),
    },
  ],
  [
    'recognition is logged once they said SEND, the receipt after OUT',
    {
      change: all(
        acts('challenge', (own) => own.slice(0, -1)),
        acts('offer', (own) => [...own, { log: 'RECOGNITION BOTH WAYS QV7K' }]),
        acts('receipt', (own) => own.slice(0, -1)),
        acts('end', (own) => [...own, { log: 'R NR 14 FROM QV7K' }]),
      ),
    },
  ],
  [
    'the log is in plain words',
    {
      change: all(
        swap('call', 'CALLED QV7K ON 4718', 'QV7K called and answered'),
        swap('challenge', 'RECOGNITION BOTH WAYS QV7K', 'Both authenticated'),
        swap('send', 'SENT NR 14 TO QV7K BY TELEPRINTER', 'NR 14 sent to Tern Ness'),
        swap('receipt', 'RECEIPT NR 14 FROM QV7K', 'They received it'),
        swap('cool', 'CLOSING DOWN', 'Shutting down'),
      ),
    },
  ],
  [
    'the printer motor goes off while the sender cools',
    { from: 'cool', change: acts('cool', ([first, ...own]) => [first!, set({ 'printer.motor': false }), ...own]) },
  ],
  [
    'printer and inverter go off while the sender cools',
    {
      from: 'cool',
      change: acts('cool', ([first, ...own]) => [
        first!,
        set({ 'printer.motor': false, 'inverter.lever': 'off', 'feed.inverter': false }),
        ...own,
      ]),
    },
  ],
];

describe('the mark of first-call', () => {
  it('is a full hundred for the right hand', () => {
    expect(mark(right.drill.record, scenario)).toMatchObject({ verdict: 'GO', score: 100 });
  });

  it.each(WRONG)('wrong: %s', (_, hand, fails) => {
    expect(failed(hand)).toEqual(fails);
  });

  it.each(OTHERWISE)('right in another way: %s', (_, hand) => {
    expect(failed(hand)).toEqual([]);
  });

  it.each(OTHERWISE)('is guided to the last step: %s', (_, hand) => {
    const { lines } = work(hand).record;
    const drill = begin(SEED);
    const guide = new Guide(scenario);
    for (const line of lines) {
      if (line.k !== 'do') continue;
      drill.advance(line.t);
      guide.next(drill);
      drill.act(line.control, line.value);
    }
    expect(guide.next(drill)?.step.id).toBe('hand-over');
  });

  it('has a wrong hand for every measure', () => {
    const shown = new Set(WRONG.flatMap(([, , fails]) => fails));
    expect(scenario.measures.map((m) => m.id).filter((id) => !shown.has(id))).toEqual([]);
  });
});
