/** A debrief as it could come from a drill that went half well: for the pages' tests and for looking at them. */
import type { Debrief, Finding, Judged, Moment } from '../../src/core/debrief/debrief.ts';

const min = 60e6;
const at = (m: number, s = 0): number => m * min + s * 1e6;
const moment = (label: string, expected: number, happened: number | null, long?: [number, number]): Moment => ({
  label,
  expected: { from_us: expected, to_us: expected + (long?.[0] ?? 0) },
  happened: happened === null ? null : { from_us: happened, to_us: happened + (long?.[1] ?? 0) },
});
const judged = (
  id: string,
  title: string,
  standard: string,
  yours: string,
  go: boolean,
  of: number,
  critical = false,
): Judged => ({
  id,
  title,
  standard,
  yours,
  go,
  exercised: true,
  critical,
  points: go ? of : 0,
  of,
  because: [12],
});

const finding = (f: Omit<Finding, 'exercised' | 'utc' | 'because' | 'told'>): Finding => ({
  exercised: true,
  utc: '',
  because: [12],
  ...f,
  told: f.happened,
});

export const sampleDebrief: Debrief = {
  title: 'First traffic to Tern Ness',
  task: 'Pass message NR 14 to Tern Ness by teleprinter.',
  timeline: [
    {
      t_us: at(6, 20),
      utc: '09 46 20',
      title: 'you by voice: QUEBEC VICTOR SEVEN KILO THIS IS QUEBEC VICTOR FOUR MIKE OVER',
      line: 80,
    },
    { t_us: at(6, 40), utc: '09 46 40', title: 'log: called QV7K', line: 84 },
  ],
  garbles: [
    {
      measure: 'copy',
      message: 'NR14',
      at: 'QV7K',
      text: 'ROAD TO SAND QUAY OPEN UNTIL 1600.',
      errors: 2,
      wrong: [
        { at: 0, want: 'R', got: 'G', units: [5], how: 'wrong', line: 300, at_us: at(9) },
        { at: 12, want: ' ', got: '', units: [], how: 'missing', line: null, at_us: null },
      ],
    },
  ],
  manner: 'assessed',
  seed: 4718,
  stretch: 1,
  date: '2031-10-06',
  utc0: '09:40:00',
  end_us: at(14, 20),
  ended: 'handed over',
  verdict: 'NO-GO',
  score: 82,
  pass: 80,
  measures: [
    judged('guard', 'Guard and earth before heat', 'both made first', 'guard off until 09 43 10', false, 10, true),
    judged('power', 'Power in order', 'in order', 'in order', true, 8),
    judged('printer', 'Printer proved in local', 'both cases, before line', 'proved', true, 4),
    judged('match', 'Power back at full', 'under 6 W', '3 W', true, 8),
    judged('dial', 'Dial when copying print', 'within 30 Hz', '15 Hz', true, 8),
    judged('listen', 'Listened before calling', '20 s', '4 s', false, 8),
    judged('call', 'Call form', 'theirs, THIS IS, yours, OVER', 'as it should be', true, 6),
    judged('prove', 'Recognition both ways', 'right, begun in 20 s', 'right, 9 s', true, 12, true),
    judged('steady', 'Steady mark before tape', 'always', 'always', true, 4),
    judged('copy', 'Text at the far end', 'at most 1 % wrong', '0.4 %', true, 12),
    judged('receipt', 'Receipt obtained', 'before 10 20', '09 52 31', true, 8, true),
    judged('log', 'Station log complete', '9 entries', '9 entries', true, 6),
    judged('close', 'Closed down in order', 'in order', 'in order', true, 4),
    judged('air', 'Time on the air', 'at most 2 times needed', '1.4 times', true, 2),
  ],
  moments: [
    moment('guard, earth', at(0, 25), at(3, 10)),
    moment('power up', at(0, 50), at(1, 20)),
    moment('heaters', at(1, 20), at(2, 5)),
    moment('matched', at(2, 25), at(5, 2)),
    moment('listen', at(3, 10), at(7, 5)),
    moment('call', at(3, 30), at(6, 20)),
    moment('proved', at(4, 0), at(7, 40)),
    moment('send NR 14', at(4, 40), at(8, 50), [at(1, 20), at(1, 30)]),
    moment('receipt', at(6, 10), at(11, 5)),
    moment('close down', at(6, 40), at(12, 40)),
    moment('hand over', at(7, 20), at(14, 20)),
  ],
  air: [
    { from_us: at(4, 40), to_us: at(4, 44) },
    { from_us: at(6, 20), to_us: at(6, 27) },
    { from_us: at(7, 30), to_us: at(7, 36) },
    { from_us: at(7, 44), to_us: at(7, 50) },
    { from_us: at(8, 50), to_us: at(10, 20) },
    { from_us: at(11, 15), to_us: at(11, 18) },
  ],
  air_us: at(1, 56),
  findings: [
    finding({
      measure: 'guard',
      critical: true,
      expected: 'both made first',
      title: 'Heat before the guard was on',
      flag: 'guard off',
      at_us: at(2, 5),
      happened: 'The heaters went on at 09 42 05 with the insulator guard still off. It was put on a minute later.',
      why: 'The foot of the whip stands at more than a thousand volts when it radiates. Whoever leans on it is burned.',
      next: 'Walk round the vehicle first: look up, earth, counterpoise, guard. Then power.',
    }),
    finding({
      measure: 'listen',
      critical: false,
      expected: '20 s',
      title: 'Called before listening',
      flag: 'called first',
      at_us: at(6, 20),
      happened: 'You called after 4 s of headset. QV9B at Kelp Isle was calling Tern Ness just then.',
      why: 'Two calls at once are no call. QV9B had to begin again.',
      next: 'Sender on wait, 20 s of headset, then call.',
    }),
  ],
  interruptions: [{ at_us: at(9, 12), wall_ms: 190_000, why: 'hidden' }],
  helps: 0,
};
