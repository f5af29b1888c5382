/** A recording put on the air: the upper sideband of a carrier that is itself suppressed. Takes no notice of anybody. */
import * as v from 'valibot';
import { code, flag, map, number } from '../../record/shape.ts';
import { measure } from '../../samples/recording.ts';
import type { Correspondent, FarBench, FarState } from '../correspondent.ts';
import { forgetPast, planSound, radiated_W, silence, stop } from '../transmitter.ts';

const schema = map({
  /** The suppressed carrier: a tone of 2 kHz in the recording is on the air 2 kHz higher. */
  kHz: number(1800, 17_000),
  /** The file, beside the scenario. */
  wav: code(/^[A-Za-z0-9][\w-]{0,60}\.wav$/, 'the name of a WAV file beside the scenario, letters, digits, - and _'),
  /** Mean output over the recording before the whip, W. */
  power_W: v.optional(number(0.01, 500), 120),
  /** When it begins, and whether it is on then. */
  from_s: v.optional(number(0, 86_400), 0),
  on: v.optional(flag, true),
  /** Over and over, end to beginning. */
  repeat: v.optional(flag, false),
});
type Params = v.InferOutput<typeof schema>;
const told = map({ on: flag });

type RecordingState = FarState & { with: Params; radiated_W: number; isOn: boolean };

function play(s: RecordingState, bench: FarBench): void {
  const { wav, kHz, repeat } = s.with;
  const recording = bench.recordings.get(wav);
  if (!recording) throw new RangeError(`no recording ${wav}: whoever begins a drill brings its recordings`);
  if (s.isOn)
    planSound(
      s.radiation,
      { name: wav, carrier_Hz: kHz * 1000, repeats: repeat },
      measure(recording),
      s.radiated_W,
      bench.now_us,
    );
}

/** A recording. */
export const recording: Correspondent<RecordingState, Params> = {
  id: 'recording',
  about: 'A WAV file beside the scenario, on the air as the upper sideband of its carrier.',
  schema,
  told,
  start(call, params, bench) {
    const given = v.parse(schema, params);
    bench.after(given.from_s * 1e6, 'play');
    const W = radiated_W(given.kHz, given.power_W);
    return { call, radiation: silence(call), with: given, radiated_W: W, isOn: given.on };
  },
  receiver: ({ with: { kHz } }) => ({ tuned_Hz: kHz * 1000, shift_Hz: 850 }),
  stirred(s, bench) {
    forgetPast(s.radiation, bench.now_us);
  },
  woken(s, _event, bench) {
    play(s, bench);
  },
  tell(s, what, bench) {
    const { on } = what as v.InferOutput<typeof told>;
    if (on === s.isOn) return;
    s.isOn = on;
    bench.forget((e) => e === 'play');
    if (on) play(s, bench);
    else stop(s.radiation, bench.now_us);
  },
};
