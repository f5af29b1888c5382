/** A page for test/sound/listen.ts: a drill with the calibrator on, its sound, and an analyser that says what comes out. */
import { Howler } from 'howler';
import text from '../../scenarios/first-call.yaml?raw';
import { KINDS } from '../../src/core/catalogue.ts';
import { Drill } from '../../src/core/drill.ts';
import { castScenario, readScenario } from '../../src/core/scenario/scenario.ts';
import type { ControlValue } from '../../src/core/signals.ts';
import { openSound } from '../../src/sound/sound.ts';

const read = readScenario(text, KINDS, 'first-call.yaml');
if (!read.ok) throw new Error('scenario');
const setting = { name: 'first-call', scenario: text, seed: 11, manner: 'unaided', stretch: 1 } as const;
const drill = new Drill(castScenario(read.source, 11), setting);
const listeners = new Set<() => void>();
const act = (control: string, value: ControlValue) => {
  const why = drill.act(control, value);
  for (const listener of listeners) listener();
  return why;
};
for (const [control, value] of Object.entries({
  'feed.isolator': true,
  'feed.master': true,
  'feed.inverter': true,
  'feed.receiver': true,
  'receiver.power': true,
  'receiver.band': '4',
  'receiver.dial': 750,
  'receiver.calibrator': true,
  'receiver.bfo': true,
  'receiver.agc': 'fast',
  'receiver.bandwidth': '6',
  'receiver.rfGain': 10,
  'receiver.afGain': 10,
  'hand.phones': 10,
}))
  act(control, value);

const began_ms = performance.now();
setInterval(() => {
  drill.advance(Math.floor((performance.now() - began_ms) * 1000));
  for (const listener of listeners) listener();
}, 16);

const sound = await openSound({
  drill,
  onChange(listener) {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
});
const { ctx } = Howler;
const analyser = new AnalyserNode(ctx, { fftSize: 32_768, smoothingTimeConstant: 0 });
Howler.masterGain.connect(analyser);

function heard() {
  const wave = new Float32Array(analyser.fftSize);
  analyser.getFloatTimeDomainData(wave);
  const bins = new Float32Array(analyser.frequencyBinCount);
  analyser.getFloatFrequencyData(bins);
  let best = 1;
  for (let i = 1; i < bins.length; i++) if (bins[i]! > bins[best]!) best = i;
  const { dialError_kHz: _, ...inner } = drill.station.state.boxes['receiver'] as unknown as Record<string, number>;
  const { rx } = drill.station.state.wires;
  return {
    state: ctx.state,
    rate: ctx.sampleRate,
    rms: Math.sqrt(wave.reduce((s, v) => s + v * v, 0) / wave.length),
    peak_Hz: (best * ctx.sampleRate) / analyser.fftSize,
    want_Hz: Math.abs(4_750_000 * (1 + inner['crystal_ppm']! / 1e6) - rx.tuned_Hz - rx.pitch_Hz),
    words: sound.sounding(),
  };
}
Object.assign(window, {
  keydownListen: { act, heard, mute: (on: boolean) => sound.mute(on), close: () => sound.close() },
});
document.body.dataset['ready'] = 'yes';
