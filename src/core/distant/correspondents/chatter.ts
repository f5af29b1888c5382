/** A station that talks, prints or keys on a channel when the scenario says so: the channel is not yours alone. */
import * as v from 'valibot';
import { flag, list, map, number, text } from '../../record/shape.ts';
import type { Json } from '../../signals.ts';
import { spokenWords } from '../../telegraphy/speaking.ts';
import type { Correspondent, FarBench } from '../correspondent.ts';
import { beginOutgoing, noteCover, othersOn, type Sender } from '../cover.ts';
import { forgetPast, isSending, planMorse, planPrint, planVoice, radiated_W, silence } from '../transmitter.ts';

const seconds = number(0, 86_400);
const lines = list(text(300), 40, 1);
/** Lines to say one after the other with pauses for the answers, or texts to print or to key. */
const talk = {
  say: v.optional(lines),
  print: v.optional(lines),
  morse: v.optional(lines),
  pause_s: v.optional(seconds, 6),
};
const told = map(talk);
type Talk = v.InferOutput<typeof told>;

const schema = map({
  kHz: number(1800, 17_000),
  /** Output before the whip, W. */
  power_W: v.optional(number(1, 500), 120),
  shift_Hz: v.optional(v.picklist([200, 400, 850]), 400),
  wpm: v.optional(number(4, 30), 12),
  /** Does it listen before it sends? One that does not talks over others. */
  polite: v.optional(flag, true),
  /** What it sends, and when it begins. */
  talks: v.optional(list(map({ at_s: seconds, ...talk }), 100), []),
});
type Params = v.InferOutput<typeof schema>;
type Line = { by: 'say' | 'print' | 'morse'; text: string; pause_us: number; again: boolean };

type ChatterState = Sender & {
  with: Params;
  radiated_W: number;
  lines: Line[];
  now: Line | null;
  isDue: boolean;
  /** Somebody else was on the air with the line, which must be said again. */
  covered: boolean;
};

/** The channel must have been free for so long; then it looks again. */
const FREE_US = 1_500_000;

const channel_Hz = (s: ChatterState): number => s.with.kHz * 1000;
const isBusy = (s: ChatterState, bench: FarBench): boolean => othersOn(bench, channel_Hz(s), bench.now_us).length > 0;

function ask(s: ChatterState, bench: FarBench, delay_us: number): void {
  if (s.isDue) return;
  s.isDue = true;
  bench.after(delay_us, 'next');
}

function plan(s: ChatterState, bench: FarBench, { by, text }: Line): number {
  const f_Hz = channel_Hz(s);
  if (by === 'print') return planPrint(s.radiation, text, f_Hz, s.with.shift_Hz, s.radiated_W, bench.now_us);
  if (by === 'morse') return planMorse(s.radiation, text, s.with.wpm, f_Hz, s.radiated_W, bench.now_us);
  return planVoice(s.radiation, spokenWords(text).join(' '), f_Hz, s.radiated_W, bench.now_us);
}

/** The next line; before it the last one again, if that was covered. */
function next(s: ChatterState, bench: FarBench): void {
  if (s.now && s.covered && !s.now.again) s.lines.unshift({ ...s.now, again: true });
  s.now = null;
  const [line] = s.lines;
  if (!line) return;
  if (s.with.polite && isBusy(s, bench)) return ask(s, bench, FREE_US);
  s.lines.shift();
  Object.assign(s, { now: line, covered: false });
  ask(s, bench, plan(s, bench, line) - bench.now_us + line.pause_us);
  beginOutgoing(s, bench, channel_Hz(s));
}

function take(s: ChatterState, bench: FarBench, t: Talk): void {
  for (const by of ['say', 'print', 'morse'] as const)
    for (const text of t[by] ?? []) s.lines.push({ by, text, pause_us: t.pause_s * 1e6, again: false });
  if (!s.now) ask(s, bench, 0);
}

/** A talking station. */
export const chatter: Correspondent<ChatterState, Params> = {
  id: 'chatter',
  about: 'A station that says, prints or keys what the scenario tells it, and says again what was talked over.',
  schema,
  told,
  tells: { covered: 'was talked over[ by {by}]' },
  leaves: ['spoke'],
  start(call, params, bench) {
    const given = v.parse(schema, params);
    for (const { at_s, ...t } of given.talks) bench.after(at_s * 1e6, { talk: t as Json });
    const power = radiated_W(given.kHz, given.power_W);
    return {
      call,
      radiation: silence(call),
      with: given,
      radiated_W: power,
      lines: [],
      now: null,
      isDue: false,
      covered: false,
      outgoing: null,
    };
  },
  receiver: ({ with: { kHz, shift_Hz } }) => ({ tuned_Hz: kHz * 1000, shift_Hz }),
  stirred(s, bench) {
    const { now_us } = bench;
    forgetPast(s.radiation, now_us);
    if (isSending(s.radiation, now_us) && isBusy(s, bench)) s.covered = true;
    noteCover(s, bench, channel_Hz(s));
  },
  tell(s, what, bench) {
    take(s, bench, what as Talk);
  },
  woken(s, event, bench) {
    const begun = (event as { talk?: Talk } | null)?.talk;
    if (begun) return take(s, bench, begun);
    s.isDue = false;
    next(s, bench);
  },
};
