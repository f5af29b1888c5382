/** External radio noise as figures above k T0 b: ITU-R P.372-16. Its reference aerial is a short lossless vertical monopole on perfect ground. */
import { exp, ln, log10, pow } from '../../numeric/elementary.ts';

/** A noise figure that varies from day to day: its median and how far the upper and lower deciles lie from it, dB (all from 0 up but the median). */
export interface NoiseFigure {
  readonly Fam_dB: number;
  readonly Du_dB: number;
  readonly Dl_dB: number;
}

/** F_am = c - d log10 f with its deciles: P.372-16, table of man-made noise by environment. */
const MAN_MADE = {
  city: { c: 76.8, d: 27.7, Du_dB: 11.0, Dl_dB: 6.7 },
  residential: { c: 72.5, d: 27.7, Du_dB: 10.6, Dl_dB: 5.3 },
  rural: { c: 67.2, d: 27.7, Du_dB: 9.2, Dl_dB: 4.6 },
  // The table gives no deciles for quiet rural places; the rural ones stand in.
  'quiet-rural': { c: 53.6, d: 28.6, Du_dB: 9.2, Dl_dB: 4.6 },
} as const;

/** An environment of P.372's man-made noise. */
export type Environment = keyof typeof MAN_MADE;

/** Every environment of P.372, noisiest first. */
export const environments = Object.keys(MAN_MADE) as readonly Environment[];

const GALACTIC = { c: 52, d: 23, decile_dB: 2 };
const E_CONSTANT_DB = 95.5;
const DECILE_OF_UNIT_NORMAL = 1.282;
const NEPER_DB = 10 / ln(10);
/** Standard deviation up to which the log-normal sum holds (P.372-16 section 8). */
const MOST_SIGMA_DB = 12;

function within(what: string, x: number, low: number, high: number): void {
  if (!(x >= low && x <= high)) throw new RangeError(`${what} must be from ${low} to ${high}, got ${x}`);
}

/** Man-made noise at 0.3..250 MHz. */
export function manMadeNoise(f_MHz: number, environment: Environment): NoiseFigure {
  within('f_MHz', f_MHz, 0.3, 250);
  const { c, d, Du_dB, Dl_dB } = MAN_MADE[environment];
  return { Fam_dB: c - d * log10(f_MHz), Du_dB, Dl_dB };
}

/** Noise of the galaxy at 0.3..250 MHz; it reaches the ground only above foF2, which the caller decides. */
export function galacticNoise(f_MHz: number): NoiseFigure {
  within('f_MHz', f_MHz, 0.3, 250);
  return { Fam_dB: GALACTIC.c - GALACTIC.d * log10(f_MHz), Du_dB: GALACTIC.decile_dB, Dl_dB: GALACTIC.decile_dB };
}

/** Noise figure of powers added: 10 log sum 10^(F/10), dB; -Infinity for none. */
export function sumOfFigures_dB(figures_dB: readonly number[]): number {
  const strongest = Math.max(...figures_dB);
  if (!Number.isFinite(strongest)) return strongest;
  return strongest + 10 * log10(figures_dB.reduce((sum, F) => sum + pow(10, (F - strongest) / 10), 0));
}

/** Median and standard deviation (dB) of a sum of log-normal powers, each given as median and standard deviation: P.372-16 section 8. */
function logNormalSum(parts: readonly { median: number; sigma: number }[]): { median: number; sigma: number } {
  const strongest = Math.max(...parts.map(({ median }) => median));
  let alpha = 0;
  let beta = 0;
  for (const { median, sigma } of parts) {
    const spread = (sigma * sigma) / (NEPER_DB * NEPER_DB);
    const mean = exp((median - strongest) / NEPER_DB + spread / 2);
    alpha += mean;
    beta += mean * mean * (exp(spread) - 1);
  }
  const spread = ln(1 + beta / (alpha * alpha));
  const isWide = parts.some(({ sigma }) => sigma > MOST_SIGMA_DB);
  return {
    median: isWide
      ? sumOfFigures_dB(parts.map(({ median }) => median))
      : strongest + NEPER_DB * (ln(alpha) - spread / 2),
    sigma: NEPER_DB * Math.sqrt(spread),
  };
}

/**
 * Median and deciles of several noises together (P.372-16 section 8). The sum is taken once with the upper and once with
 * the lower deciles; the lower of the two medians is kept, each decile comes from its own sum. Where a decile stands for
 * more than 12 dB of standard deviation, that sum's median is the plain sum of powers.
 */
export function externalNoise(figures: readonly NoiseFigure[]): NoiseFigure {
  if (figures.length === 0) throw new RangeError('external noise needs at least one figure, got none');
  const sumBy = (decile: 'Du_dB' | 'Dl_dB') =>
    logNormalSum(figures.map((one) => ({ median: one.Fam_dB, sigma: one[decile] / DECILE_OF_UNIT_NORMAL })));
  const upper = sumBy('Du_dB');
  const lower = sumBy('Dl_dB');
  return {
    Fam_dB: Math.min(upper.median, lower.median),
    Du_dB: DECILE_OF_UNIT_NORMAL * upper.sigma,
    Dl_dB: DECILE_OF_UNIT_NORMAL * lower.sigma,
  };
}

/** What a receiving system adds to external noise; everything at 17 C (T0), figures and losses in dB from 0 up. */
export interface ReceivingSystem {
  /** 1 / efficiency of the aerial and its matching. */
  readonly aerialLoss_dB: number;
  readonly lineLoss_dB: number;
  readonly receiverFigure_dB: number;
}

/** Noise figure of the whole system referred to a lossless aerial: f = f_a - 1 + f_c f_t f_r (P.372-16 section 2, all at T0). */
export function systemNoiseFigure_dB(Fa_dB: number, system: ReceivingSystem): number {
  const inside_dB = system.aerialLoss_dB + system.lineLoss_dB + system.receiverFigure_dB;
  within('losses and receiver figure', inside_dB, 0, 200);
  return 10 * log10(pow(10, Fa_dB / 10) - 1 + pow(10, inside_dB / 10));
}

/** RMS noise field in a bandwidth b_Hz (above 0), dB(uV/m), for the short monopole: F_a + 20 log f + 10 log b - 95.5 (P.372-16 section 3). */
export function noiseField_dBuV_per_m(Fa_dB: number, f_MHz: number, b_Hz: number): number {
  within('b_Hz', b_Hz, Number.MIN_VALUE, 1e9);
  return Fa_dB + 20 * log10(f_MHz) + 10 * log10(b_Hz) - E_CONSTANT_DB;
}

/** RMS noise field in 1 Hz, dB(uV/m), for the short monopole. */
export const En_dBuV_per_m_1Hz = (Fa_dB: number, f_MHz: number): number => noiseField_dBuV_per_m(Fa_dB, f_MHz, 1);
