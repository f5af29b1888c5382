/** A source of carrier, Morse or print that takes no notice of anybody: interference, or a signal to tune to. */
import * as v from 'valibot';
import { flag, map, number, oneOf, text } from '../../record/shape.ts';
import type { Correspondent, FarBench, FarState } from '../correspondent.ts';
import { forgetPast, planCarrier, planMorse, planPrint, radiated_W, silence, stop } from '../transmitter.ts';

const schema = map({
  kHz: number(1800, 17_000),
  /** Output before the whip, W. */
  power_W: v.optional(number(0.01, 500), 120),
  emission: v.optional(oneOf(['N0N', 'A1A', 'F1B']), 'N0N'),
  /** What it keys or prints, over and over. */
  text: v.optional(text(400), 'V V V'),
  wpm: v.optional(number(4, 30), 12),
  shift_Hz: v.optional(v.picklist([200, 400, 850]), 400),
  /** A bare carrier stands for so long at a time; after each turn it pauses. */
  stand_s: v.optional(number(0.1, 86_400), 3600),
  pause_s: v.optional(number(0, 3600), 3),
  /** When it begins, and whether it is on then. */
  from_s: v.optional(number(0, 86_400), 0),
  on: v.optional(flag, true),
});
type Params = v.InferOutput<typeof schema>;
const told = map({ on: flag });

type BeaconState = FarState & { with: Params; radiated_W: number; isOn: boolean };

function turn(s: BeaconState, bench: FarBench): void {
  if (!s.isOn) return;
  const { emission, kHz, wpm, shift_Hz, stand_s, pause_s } = s.with;
  const [r, f_Hz, W, now] = [s.radiation, kHz * 1000, s.radiated_W, bench.now_us];
  const end_us =
    emission === 'A1A'
      ? planMorse(r, s.with.text, wpm, f_Hz, W, now)
      : emission === 'F1B'
        ? planPrint(r, `\n${s.with.text}\n`, f_Hz, shift_Hz, W, now)
        : planCarrier(r, f_Hz, W, now, now + stand_s * 1e6);
  bench.after(end_us - now + pause_s * 1e6, 'turn');
}

/** A beacon. */
export const beacon: Correspondent<BeaconState, Params> = {
  id: 'beacon',
  about: 'A carrier, or Morse or print over and over, that takes no notice of anybody.',
  schema,
  told,
  leaves: ['spoke'],
  start(call, params, bench) {
    const given = v.parse(schema, params);
    bench.after(given.from_s * 1e6, 'turn');
    return {
      call,
      radiation: silence(call),
      with: given,
      radiated_W: radiated_W(given.kHz, given.power_W),
      isOn: given.on,
    };
  },
  receiver: ({ with: { kHz, shift_Hz } }) => ({ tuned_Hz: kHz * 1000, shift_Hz }),
  stirred(s, bench) {
    forgetPast(s.radiation, bench.now_us);
  },
  woken(s, _event, bench) {
    turn(s, bench);
  },
  tell(s, what, bench) {
    const { on } = what as v.InferOutput<typeof told>;
    if (on === s.isOn) return;
    s.isOn = on;
    bench.forget((e) => e === 'turn');
    if (on) turn(s, bench);
    else stop(s.radiation, bench.now_us);
  },
};
