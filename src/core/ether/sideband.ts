/** A recording on the air as complex samples: the upper sideband of a suppressed carrier. */
import { cos, sin } from '../numeric/elementary.ts';
import { type Recordings, Sideband } from '../samples/recording.ts';
import type { CarrierStep } from '../signals.ts';
import type { Amplitude, Band } from './carrier.ts';

/** The outermost parts of the band are left out: what lies beyond would fold back into it. */
const USED = 0.9;
/** The path's amplitude is asked once in so many samples. */
const ANCHOR = 32;

const wrap = (cycles: number): number => cycles - Math.floor(cycles);

type Stretch = { step: CarrierStep; from: number; to: number };

/** The steps that put a recording into samples `first` up to `end`. */
function stretches(steps: readonly CarrierStep[], { first, rate, re }: Band): Stretch[] {
  const end = first + re.length;
  const sampleOf = (t_us: number) => Math.max(first, Math.min(end, Math.ceil((t_us * rate) / 1e6)));
  return steps
    .map((step, i) => ({ step, from: sampleOf(step.t_us), to: sampleOf(steps[i + 1]?.t_us ?? Infinity) }))
    .filter(({ step, from, to }) => step.sound && step.power_W > 0 && to > from);
}

/** Add the recordings that `steps` put on the air. A recording that there is not adds nothing. */
export function addSideband(
  band: Band,
  steps: readonly CarrierStep[],
  recordings: Recordings,
  amplitude: Amplitude,
): void {
  for (const stretch of stretches(steps, band)) addStretch(band, stretch, recordings, amplitude);
}

function addStretch(band: Band, { step, from, to }: Stretch, recordings: Recordings, amplitude: Amplitude): void {
  const { re, im, first, rate, centre_Hz } = band;
  const { sound, t_us, f_Hz, power_W } = step;
  const recording = sound && recordings.get(sound.name);
  if (!recording) return;
  const carrier_Hz = sound.carrier_Hz;
  const half_Hz = (USED * rate) / 2;
  const off_Hz = centre_Hz - carrier_Hz;
  const sideband = new Sideband(recording, sound.repeats, { low_Hz: off_Hz - half_Hz, high_Hz: off_Hz + half_Hz });
  if (sideband.isEmpty) return;
  sideband.prepare(from / rate - t_us / 1e6, to / rate - t_us / 1e6);
  let [ar, ai] = [0, 0];
  for (let k = from; k < to; k++) {
    if (k === from || k % ANCHOR === 0) [ar, ai] = amplitude(power_W, f_Hz, k - (k % ANCHOR));
    const [x, y] = sideband.at(k / rate - t_us / 1e6);
    const t_s = k / rate;
    const turn = 2 * Math.PI * (wrap(carrier_Hz * t_s) - wrap(centre_Hz * t_s));
    const [c, s] = [cos(turn), sin(turn)];
    const [p, q] = [x * c - y * s, x * s + y * c];
    re[k - first] = re[k - first]! + ar * p - ai * q;
    im[k - first] = im[k - first]! + ar * q + ai * p;
  }
}
