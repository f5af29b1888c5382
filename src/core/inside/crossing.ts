/** Inside the ether: the way over the ground and by the sky, and what is left of the wave over the noise. */
import { VOICE_HZ } from '../distant/hearing.ts';
import { Paths } from '../ether/paths.ts';
import { REQUIRED_CN0_dBHz } from '../physics/circuit.ts';
import { type GroundName, grounds } from '../physics/ground-wave/ground.ts';
import { mixedGroundWave, type Section } from '../physics/ground-wave/mixed-path.ts';
import { ratioToDb } from '../quantity/quantity.ts';
import { voiceChance } from '../samples/voice.ts';
import type { HeardWord } from '../signals.ts';
import { morseChance } from '../station/morse-ear.ts';
import { newWires } from '../station/wires.ts';
import type { Carried } from './carried.ts';
import { NOTICED_dB } from './passage.ts';
import { type Scene, sendingOf, sendWay, stepAt, upAt } from './scene.ts';
import { type Look, lookOf } from './sending.ts';

/** The ether. */
export interface EtherLook extends Look {
  readonly link: 'ether';
  readonly from: string;
  readonly to: string;
  readonly kHz: number;
  readonly radiated_W: number;
  readonly sections: readonly { ground: string; km: number }[];
  readonly km: number;
  /** Ground wave along the way, dB above 1 uV/m: even steps from `firstKm` to the far end. */
  readonly firstKm: number;
  readonly ground_dBuV: readonly number[];
  /** Median sky wave at the far end; null when none arrives. */
  readonly sky_dBuV: number | null;
  readonly noise_dBuV: number;
  /** Both waves and carrier over noise at the far end; null when nothing is radiated. */
  readonly field_dBuV: number | null;
  readonly cn0_dB: number | null;
  /** What is sent needs so much of the latter: print for one wrong letter in a hundred, voice and Morse for nine words in ten, a carrier to be noticed. */
  readonly needs: { readonly for: 'print' | 'voice' | 'Morse' | 'carrier'; readonly dB: number };
}

const STEPS = 60;
/** Modulation depth of every sender here. */
const DEPTH = 0.8;

/** The first `km` of a way. */
function firstOf(sections: readonly Section[], km: number): Section[] {
  const out: Section[] = [];
  let left = km;
  for (const s of sections) {
    if (left <= 0.01) break;
    out.push({ ground: s.ground, d_km: Math.max(0.01, Math.min(s.d_km, left)) });
    left -= s.d_km;
  }
  return out;
}

let known: { climate: object; paths: Paths } | undefined;
/** Paths of a world; each answer depends on nothing but its question, so keeping them changes none. */
function pathsOf(scene: Scene): Paths {
  if (known?.climate !== scene.climate) known = { climate: scene.climate, paths: new Paths(scene.climate) };
  return known.paths;
}

let drawn: { key: string; fields: number[] } | undefined;
/** The ground wave of 1 kW along a way; the last answer is kept, for it depends on nothing but its question. */
function alongGround(sections: readonly Section[], f_MHz: number, firstKm: number, km: number): number[] {
  const key = JSON.stringify([sections, f_MHz, firstKm]);
  if (drawn?.key !== key) {
    const at = (d: number) => mixedGroundWave({ f_MHz, sections: firstOf(sections, d) }).E_dBuV_per_m;
    const fields = Array.from({ length: STEPS + 1 }, (_, i) => at(firstKm + ((km - firstKm) * i) / STEPS));
    drawn = { key, fields };
  }
  return drawn.fields;
}

const NINE_IN_TEN = 0.9;

/** Least carrier over the noise in 1 Hz at which nine words in ten are had, dB, to a tenth. */
function forWords(chance: (word: HeardWord) => number): number {
  const word = { t0_us: 0, t1_us: 0, word: '', by: 'voice', station: '', f_Hz: 0, depth: DEPTH } as const;
  let dB = NOTICED_dB;
  while (dB < 90 && chance({ ...word, cn0_dB: dB }) < NINE_IN_TEN) dB += 0.1;
  return dB;
}

const quiet = { ...newWires('').rx, bfo: true, pitch_Hz: 800, tuned_Hz: 0, bandwidth_Hz: VOICE_HZ };
const NEEDS = {
  print: REQUIRED_CN0_dBHz,
  voice: forWords((word) => voiceChance(word, [], quiet)),
  Morse: forWords((word) => morseChance(word, [], quiet, 0)),
  carrier: NOTICED_dB,
};

/** What an emission needs; while nothing is sent, what print would. */
function needed(on: Carried): EtherLook['needs'] {
  const what = on === 'sound' ? 'voice' : on === 'nothing' ? 'print' : on;
  return { for: what, dB: NEEDS[what] };
}

/** Inside the ether. */
export function insideEther(scene: Scene, start_us: number | null): EtherLook {
  const way = sendWay(scene);
  const sending = sendingOf(scene, way);
  const look = lookOf(scene, sending, start_us);
  const { far, now_us, own } = scene;
  const t_us = upAt(sending.radiation, now_us) ?? now_us;
  const carrier = stepAt(sending.radiation, t_us);
  const f_Hz = sending.middle_Hz || (far?.tuned_Hz ?? 0);
  const path = far?.path ?? [];
  const ordered = way === 'out' ? path : [...path].reverse();
  const sections = ordered.map(({ ground, km }) => ({ ground: grounds[ground as GroundName], d_km: km }));
  const km = path.reduce((sum, p) => sum + p.km, 0);
  const firstKm = Math.max(0.1, km / STEPS);
  const f_MHz = f_Hz / 1e6;
  const isThere = carrier.power_W > 0 && f_MHz >= 1 && f_MHz <= 30 && km > 0;
  const fields = pathsOf(scene).fields(path, f_Hz, now_us);
  const over_dB = isThere ? ratioToDb(carrier.power_W / 1000) : 0;
  const ear = way === 'out' ? far?.ear : scene.ear;
  const noise_dBuV = pathsOf(scene).noise_dBuV(f_Hz);
  const arrival = ear?.arrivals(t_us).find((a) => a.station === sending.who);
  return {
    ...look,
    link: 'ether',
    from: way === 'out' ? own : (far?.call ?? ''),
    to: way === 'out' ? (far?.call ?? '') : own,
    kHz: f_Hz / 1000,
    radiated_W: carrier.power_W,
    sections: ordered.map(({ ground, km: d }) => ({ ground, km: d })),
    km,
    firstKm,
    ground_dBuV: isThere ? alongGround(sections, f_MHz, firstKm, km).map((E) => E + over_dB) : [],
    sky_dBuV: isThere && Number.isFinite(fields.sky_dBuV) ? fields.sky_dBuV + over_dB : null,
    noise_dBuV,
    field_dBuV: arrival?.field_dBuV ?? null,
    cn0_dB: arrival?.cn0_dB ?? null,
    needs: needed(look.on),
  };
}
