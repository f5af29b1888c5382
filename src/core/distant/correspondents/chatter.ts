/** A station that talks on a channel when the scenario tells it to: the channel is not yours alone. */
import * as v from 'valibot';
import type { Json } from '../../signals.ts';
import { spell } from '../../telegraphy/alphabet.ts';
import type { Correspondent, FarBench, FarState } from '../correspondent.ts';
import { forgetPast, isSending, planMorse, planPrint, planVoice, radiated_W, silence } from '../transmitter.ts';

const schema = v.strictObject({
  kHz: v.pipe(v.number(), v.minValue(1800), v.maxValue(17_000)),
  power_W: v.optional(v.pipe(v.number(), v.minValue(1), v.maxValue(500)), 120),
  shift_Hz: v.optional(v.picklist([200, 400, 850]), 400),
  wpm: v.optional(v.pipe(v.number(), v.minValue(4), v.maxValue(30)), 12),
});
type Params = v.InferOutput<typeof schema>;

/** What it can be told: lines to say, one after the other with pauses for the answers, or a text to print or key. */
const told = v.union([
  v.strictObject({ say: v.array(v.string()), pause_s: v.optional(v.number(), 6) }),
  v.strictObject({ print: v.string() }),
  v.strictObject({ morse: v.string() }),
]);

type ChatterState = FarState & {
  with: Params;
  radiated_W: number;
  lines: string[];
  pause_us: number;
  covered: boolean;
};

/** A carrier this near covers what is said. */
const COVER_HZ = 3000;

/** Call signs in a line are spoken letter by letter. */
const spoken = (line: string): string =>
  line.replace(/\b(?=[A-Z0-9]*\d)[A-Z][A-Z0-9]{2,}\b/g, (call) => spell(call).join(' '));

function next(s: ChatterState, bench: FarBench): void {
  const line = s.lines.shift();
  if (line === undefined) return;
  s.covered = false;
  const end = planVoice(s.radiation, spoken(line), s.with.kHz * 1000, s.radiated_W, bench.now_us);
  if (s.lines.length > 0) bench.after(end - bench.now_us + s.pause_us, 'next');
}

/** A talking station. */
export const chatter: Correspondent<ChatterState, Params> = {
  id: 'chatter',
  about: 'A station that says, prints or keys what the scenario tells it, and notes when it is talked over.',
  schema,
  start(call, params) {
    const given = v.parse(schema, params);
    return {
      call,
      radiation: silence(call),
      with: given,
      radiated_W: radiated_W(given.kHz, given.power_W),
      lines: [],
      pause_us: 0,
      covered: false,
    };
  },
  stirred(s, bench) {
    const { now_us } = bench;
    forgetPast(s.radiation, now_us);
    if (s.covered || !isSending(s.radiation, now_us)) return;
    const over = bench.ear.arrivals(now_us).find((a) => Math.abs(a.f_Hz - s.with.kHz * 1000) < COVER_HZ);
    if (!over) return;
    s.covered = true;
    bench.note({ k: 'far', station: s.call, what: 'covered', detail: { by: over.station } });
  },
  woken(s, event: Json, bench) {
    if (event === 'next') return next(s, bench);
    const tell = v.parse(told, event);
    const f_Hz = s.with.kHz * 1000;
    if ('print' in tell) planPrint(s.radiation, tell.print, f_Hz, s.with.shift_Hz, s.radiated_W, bench.now_us);
    else if ('morse' in tell) planMorse(s.radiation, tell.morse, s.with.wpm, f_Hz, s.radiated_W, bench.now_us);
    else {
      s.lines = [...tell.say];
      s.pause_us = tell.pause_s * 1e6;
      next(s, bench);
    }
  },
};
