/** The questions of `reach --json`: one JSON object in, one JSON object out. */
import * as v from 'valibot';
import { groundWave } from '../core/physics/ground-wave/ground-wave.ts';
import {
  En_dBuV_per_m_1Hz,
  environments,
  galacticNoise,
  manMadeNoise,
  sumOfFigures_dB,
} from '../core/physics/noise/noise.ts';
import { ionosphere } from '../core/physics/sky-wave/ionosphere.ts';
import { skyWave } from '../core/physics/sky-wave/sky-wave.ts';
import { whipImpedance } from '../core/physics/whip.ts';

/** An answer: numbers and names, null with a `reason` for what does not exist, or an `error`. */
export type Answer = Record<string, number | string | null>;

const number = v.pipe(v.number('a number'), v.finite('a finite number'));
const place = v.tuple([number, number], 'latitude and longitude as two numbers');

const ground = v.strictObject({
  kind: v.literal('ground'),
  f_MHz: number,
  d_km: number,
  ground: v.strictObject({ eps_r: number, sigma_S_per_m: number }),
  h_tx_m: v.optional(number),
  h_rx_m: v.optional(number),
  power_W: v.optional(number),
  N_s: v.optional(number),
  pol: v.optional(v.picklist(['V', 'H'], '"V" or "H"')),
});
const noise = v.strictObject({
  kind: v.literal('noise'),
  f_MHz: number,
  environment: v.picklist(environments, environments.join(', ')),
  galactic: v.optional(v.boolean('true or false')),
});
const whip = v.strictObject({ kind: v.literal('whip'), f_MHz: number, h_m: number, a_m: number });
const iono = v.strictObject({
  kind: v.literal('iono'),
  lat: number,
  lng: number,
  month: number,
  hour_UT: number,
  R12: number,
});
const sky = v.strictObject({
  kind: v.literal('sky'),
  tx: place,
  rx: place,
  R12: number,
  month: number,
  hour_UT: number,
  f_MHz: number,
  power_kW: v.optional(number),
  reference: v.optional(v.boolean('true or false')),
});
const KINDS = { ground, noise, whip, iono, sky } as const;

/** Drops what was not given, so that an absent option stays absent. */
function given<T extends object>(o: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(o).filter(([, x]) => x !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };
}

/** An answer without NaN or infinities: what cannot be expressed is null, with a reason. */
function sound(answer: Answer): Answer {
  const lost = Object.entries(answer).filter(([, x]) => typeof x === 'number' && !Number.isFinite(x));
  return lost.length === 0
    ? answer
    : { ...answer, ...Object.fromEntries(lost.map(([key]) => [key, null])), reason: 'too weak to be expressed' };
}

function answerGround(q: v.InferOutput<typeof ground>): Answer {
  const { kind: _, ...path } = q;
  return { ...groundWave(given(path) as Parameters<typeof groundWave>[0]) };
}

function answerNoise({ f_MHz, environment, galactic }: v.InferOutput<typeof noise>): Answer {
  const figures = [manMadeNoise(f_MHz, environment).Fam_dB, ...(galactic ? [galacticNoise(f_MHz).Fam_dB] : [])];
  const Fa_dB = sumOfFigures_dB(figures);
  return { Fa_dB, En_dBuV_per_m_1Hz: En_dBuV_per_m_1Hz(Fa_dB, f_MHz) };
}

function answerSky({ kind: _, ...q }: v.InferOutput<typeof sky>): Answer {
  const s = skyWave(given(q) as Parameters<typeof skyWave>[0]);
  const { MUF_MHz, E_dBuV_per_m, skip_km, mode } = s;
  return {
    MUF_MHz,
    E_dBuV_per_m,
    skip_km,
    mode,
    ...('reason' in s
      ? { reason: s.reason }
      : skip_km === null
        ? { reason: 'no distance is reached at this frequency' }
        : {}),
  };
}

/** Answer one question, given as a JSON value. Never throws: a faulty question gets an `error` that says what was expected. */
export function answer(question: unknown): Answer {
  const kind = (question as { kind?: unknown } | null)?.kind;
  const schema = typeof kind === 'string' && Object.hasOwn(KINDS, kind) ? KINDS[kind as keyof typeof KINDS] : undefined;
  if (!schema) return { error: `kind: expected one of ${Object.keys(KINDS).join(', ')}` };
  const parsed = v.safeParse(schema, question);
  if (!parsed.success)
    return { error: parsed.issues.map((issue) => `${v.getDotPath(issue) ?? 'question'}: ${wish(issue)}`).join('; ') };
  try {
    return sound(reply(parsed.output));
  } catch (e) {
    if (e instanceof RangeError) return { error: e.message };
    throw e;
  }
}

function wish(issue: v.BaseIssue<unknown>): string {
  if (issue.kind === 'schema' && issue.type === 'strict_object' && issue.expected === 'never') return 'no such key';
  return issue.received === 'undefined'
    ? 'missing'
    : issue.message.startsWith('Invalid')
      ? `expected ${issue.expected}, got ${issue.received}`
      : `expected ${issue.message}, got ${issue.received}`;
}

function reply(q: v.InferOutput<(typeof KINDS)[keyof typeof KINDS]>): Answer {
  switch (q.kind) {
    case 'ground':
      return answerGround(q);
    case 'noise':
      return answerNoise(q);
    case 'whip':
      return { ...whipImpedance(q) };
    case 'iono':
      return { ...ionosphere(q.lat, q.lng, q.month, q.hour_UT, q.R12) };
    case 'sky':
      return answerSky(q);
  }
}
