/**
 * A vertical whip over perfect ground: input impedance by a moment method with piecewise-sinusoidal currents
 * (J. H. Richmond's Galerkin scheme, thin-wire kernel, image for the ground; the formulation is in any text on
 * moment methods, for example Balanis, Antenna Theory, chapter 8). Time factor exp(+j w t).
 *
 * The voltage is spread over the lowest 1/41 of the whip whatever the mesh is. That is the feed of the NEC2 model with
 * 41 segments, and physically the base insulator: a gap of no height has no limit, its reactance drifts as the mesh gets finer.
 */
import { asinh, cos, cosh, log10, sin, sinh, tan } from '../numeric/elementary.ts';
import { gaussLegendre } from './gauss-legendre.ts';

/** A whip: frequency in MHz, height of the whip in metres, radius (not diameter) of the rod in metres. */
export type Whip = { readonly f_MHz: number; readonly h_m: number; readonly a_m: number };

/** Ohms of a whip at its base on perfect ground: radiation resistance and reactance, nothing lost in earth or coil. */
export type WhipImpedance = { readonly R_ohm: number; readonly X_ohm: number };

/** What the current along the whip radiates. */
export type WhipSolution = WhipImpedance & {
  /** Resistance that the far field asks for; equals R_ohm to 1e-4 when the solution conserves power. */
  readonly farFieldR_ohm: number;
  /** Gain along the ground over perfect ground, dBi; 4.77 for a short whip, 5.15 at a quarter wave. */
  readonly directivity_dBi: number;
};

const C_M_PER_US = 299.792458;
const ETA_OHM = 376.730313668;
const FEED_SHARE = 1 / 41;
/** Element ends as shares of the height: dense at the feed, where the field is set, and at the tip, where the current dies. */
const MESH = [0, 1 / 123, 2 / 123, FEED_SHARE, 0.05, 0.11, 0.25, 0.5, 0.75, 0.9, 0.97, 0.994, 1];
const FEED_ELEMENTS = 3;
const N = MESH.length - 1;
const NEAR = gaussLegendre(10);
const FAR = gaussLegendre(5);
const SKY = gaussLegendre(48);

/** Largest electrical height k h in radians for which NEC2 itself is settled. */
export const WHIP_KH_MAX = 2.45;
/** Least height in radii; below it the feed elements are much shorter than the rod is thick and the thin-wire kernel fails. */
export const WHIP_SLENDERNESS_MIN = 100;

/** Says why a whip is outside the domain of the method, or null: 1.5 to 30 MHz, 1 to 6.5 m, 4 to 25 mm, height from 100 radii, k h up to 2.45. */
export function whipProblem({ f_MHz, h_m, a_m }: Whip): string | null {
  if (!(f_MHz >= 1.5 && f_MHz <= 30)) return `frequency must be 1.5 to 30 MHz, got ${f_MHz}`;
  if (!(h_m >= 1 && h_m <= 6.5)) return `whip height must be 1 to 6.5 m, got ${h_m}`;
  if (!(a_m >= 0.004 && a_m <= 0.025)) return `whip radius must be 0.004 to 0.025 m, got ${a_m}`;
  if (h_m < WHIP_SLENDERNESS_MIN * a_m)
    return `whip must be at least ${WHIP_SLENDERNESS_MIN} radii high, got ${h_m / a_m}`;
  const kh = (2 * Math.PI * f_MHz * h_m) / C_M_PER_US;
  return kh > WHIP_KH_MAX ? `electrical height must be up to ${WHIP_KH_MAX} rad, got ${kh}` : null;
}

/** Integrals of the two sine weights of one element times the kernel seen from a source height and its image. */
type Pair = { upRe: number; upIm: number; downRe: number; downIm: number };

/** A quadrature point of an element with the rising and falling sine there, Gauss weight included; the same for every source. */
type FarPoint = { z: number; up: number; down: number };

/** Wave number, radius, node heights, element lengths and 1/sin(k length); elements count from 1, element i ends at node i. */
type Geometry = { k: number; a: number; z: number[]; d: number[]; cosec: number[]; far: FarPoint[][] };

function geometry({ f_MHz, h_m, a_m }: Whip): Geometry {
  const k = (2 * Math.PI * f_MHz) / C_M_PER_US;
  const z = MESH.map((share) => share * h_m);
  const d = z.map((top, i) => (i === 0 ? 0 : top - z[i - 1]!));
  const cosec = d.map((length, i) => (i === 0 ? 0 : 1 / sin(k * length)));
  const far = d.map((length, i) =>
    i === 0
      ? []
      : FAR.x.map((x, p) => {
          const weight = (cosec[i]! * length * FAR.w[p]!) / 2;
          const rise = ((1 + x) * length) / 2;
          return { z: z[i - 1]! + rise, up: weight * sin(k * rise), down: weight * sin(k * (length - rise)) };
        }),
  );
  return { k, a: a_m, z, d, cosec, far };
}

/** Far from the source: plain Gauss in z over exp(-jkR)/R. */
function addFar(into: Pair, g: Geometry, element: number, source: number): void {
  for (const point of g.far[element]!) {
    const r = Math.sqrt((point.z - source) * (point.z - source) + g.a * g.a);
    const re = cos(g.k * r) / r;
    const im = -sin(g.k * r) / r;
    into.upRe += point.up * re;
    into.upIm += point.up * im;
    into.downRe += point.down * re;
    into.downIm += point.down * im;
  }
}

/** Near the source: z = source + a sinh u, so dz/R = du and the peak of the kernel vanishes. */
function addNear(into: Pair, g: Geometry, element: number, source: number): void {
  const foot = g.z[element - 1]! - source;
  const top = g.z[element]! - source;
  const low = asinh(foot / g.a);
  const half = (asinh(top / g.a) - low) / 2;
  for (let i = 0; i < NEAR.x.length; i++) {
    const u = low + half * (1 + NEAR.x[i]!);
    const t = g.a * sinh(u);
    const kr = g.k * g.a * cosh(u);
    const w = half * NEAR.w[i]! * g.cosec[element]!;
    const up = w * sin(g.k * (t - foot));
    const down = w * sin(g.k * (top - t));
    into.upRe += up * cos(kr);
    into.upIm -= up * sin(kr);
    into.downRe += down * cos(kr);
    into.downIm -= down * sin(kr);
  }
}

function addSource(into: Pair, g: Geometry, element: number, source: number): void {
  const reach = 1.5 * g.d[element]! + 2 * g.a;
  const near = source > g.z[element - 1]! - reach && source < g.z[element]! + reach;
  (near ? addNear : addFar)(into, g, element, source);
}

/** Element by source node: what the node and its image (same sign: the current is vertical) give together. */
function elementIntegrals(g: Geometry): Pair[][] {
  return MESH.map((_, element) =>
    element === 0
      ? []
      : g.z.map((source) => {
          const pair = { upRe: 0, upIm: 0, downRe: 0, downIm: 0 };
          addSource(pair, g, element, source);
          addSource(pair, g, element, -source);
          return pair;
        }),
  );
}

/** Kink weights of mode n at nodes n-1, n, n+1: a piecewise sinusoid radiates from its kinks only. Mode 0 has the falling half alone. */
function kinks(g: Geometry, n: number): [node: number, weight: number][] {
  const above = g.k * g.d[n + 1]!;
  const own = 1 / tan(above);
  if (n === 0)
    return [
      [0, -own],
      [1, g.cosec[n + 1]!],
    ];
  const below = g.k * g.d[n]!;
  return [
    [n - 1, g.cosec[n]!],
    [n, -(1 / tan(below) + own)],
    [n + 1, g.cosec[n + 1]!],
  ];
}

/** The complex matrix, rows of interleaved re, im: A_mn = j eta/4pi * sum of kink weights times the integral of J_m K. */
function fill(g: Geometry): Float64Array[] {
  const integrals = elementIntegrals(g);
  const scale = ETA_OHM / (4 * Math.PI);
  return Array.from({ length: N }, (_, m) => {
    const row = new Float64Array(2 * N);
    for (let n = 0; n < N; n++) {
      for (const [node, weight] of kinks(g, n)) {
        const rising = m === 0 ? null : integrals[m]![node]!;
        const falling = integrals[m + 1]![node]!;
        row[2 * n]! -= scale * weight * ((rising?.upIm ?? 0) + falling.downIm);
        row[2 * n + 1]! += scale * weight * ((rising?.upRe ?? 0) + falling.downRe);
      }
    }
    return row;
  });
}

/** Solves A I = w in place by elimination; the matrix is symmetric and its condition number is a few hundred, so no pivoting. */
function solve(A: Float64Array[], w: readonly number[]): { re: Float64Array; im: Float64Array } {
  const re = Float64Array.from(w);
  const im = new Float64Array(N);
  for (let p = 0; p < N; p++) {
    const [pr, pi] = [A[p]![2 * p]!, A[p]![2 * p + 1]!];
    const norm = pr * pr + pi * pi;
    for (let m = p + 1; m < N; m++) {
      const row = A[m]!;
      const fr = (row[2 * p]! * pr + row[2 * p + 1]! * pi) / norm;
      const fi = (row[2 * p + 1]! * pr - row[2 * p]! * pi) / norm;
      for (let n = p; n < N; n++) {
        const [xr, xi] = [A[p]![2 * n]!, A[p]![2 * n + 1]!];
        row[2 * n]! -= fr * xr - fi * xi;
        row[2 * n + 1]! -= fr * xi + fi * xr;
      }
      const [xr, xi] = [re[p]!, im[p]!];
      re[m]! -= fr * xr - fi * xi;
      im[m]! -= fr * xi + fi * xr;
    }
  }
  backSubstitute(A, re, im);
  return { re, im };
}

function backSubstitute(A: Float64Array[], re: Float64Array, im: Float64Array): void {
  for (let p = N - 1; p >= 0; p--) {
    const row = A[p]!;
    for (let n = p + 1; n < N; n++) {
      re[p]! -= row[2 * n]! * re[n]! - row[2 * n + 1]! * im[n]!;
      im[p]! -= row[2 * n]! * im[n]! + row[2 * n + 1]! * re[n]!;
    }
    const [pr, pi] = [row[2 * p]!, row[2 * p + 1]!];
    const norm = pr * pr + pi * pi;
    [re[p], im[p]] = [(re[p]! * pr + im[p]! * pi) / norm, (im[p]! * pr - re[p]! * pi) / norm];
  }
}

/** Mean of each mode over the feed region; each half sinusoid integrates to tan(kD/2)/k. */
function feedWeights(g: Geometry, h_m: number): number[] {
  const half = (element: number) => tan((g.k * g.d[element]!) / 2) / (g.k * h_m * FEED_SHARE);
  return MESH.slice(0, N).map((_, n) => {
    if (n > FEED_ELEMENTS) return 0;
    return (n > 0 ? half(n) : 0) + (n < FEED_ELEMENTS ? half(n + 1) : 0);
  });
}

type Solved = { g: Geometry; current: { re: Float64Array; im: Float64Array }; y: [re: number, im: number] };

function solveWhip(whip: Whip): Solved {
  const problem = whipProblem(whip);
  if (problem) throw new RangeError(problem);
  const g = geometry(whip);
  const weights = feedWeights(g, whip.h_m);
  const current = solve(fill(g), weights);
  const mean = (part: Float64Array) => weights.reduce((sum, w, n) => sum + w * part[n]!, 0);
  // The mean current over the feed region, not the current at z = 0: only the mean conserves power.
  return { g, current, y: [mean(current.re), mean(current.im)] };
}

/** Base impedance on perfect ground; X within 1 % or 3 ohm and R within 4 % of NEC2 (41 segments). Throws RangeError outside `whipProblem`'s domain. */
export function whipImpedance(whip: Whip): WhipImpedance {
  const [re, im] = solveWhip(whip).y;
  const norm = re * re + im * im;
  return { R_ohm: re / norm, X_ohm: -im / norm };
}

/** Strength of the radiated field at angle theta from the zenith, squared; the kinks of the current are its only sources. */
function fieldSquared({ g, current }: Solved, charge: { re: number[]; im: number[] }, cosTheta: number): number {
  let re = 0;
  let im = 0;
  for (let j = 0; j <= current.re.length; j++) {
    const phase = 2 * cos(g.k * g.z[j]! * cosTheta);
    re += charge.re[j]! * phase;
    im += charge.im[j]! * phase;
  }
  return re * re + im * im;
}

function kinkCharges({ g, current }: Solved): { re: number[]; im: number[] } {
  const re = MESH.map(() => 0);
  const im = MESH.map(() => 0);
  for (let n = 0; n < N; n++) {
    for (const [node, weight] of kinks(g, n)) {
      re[node]! += weight * current.re[n]!;
      im[node]! += weight * current.im[n]!;
    }
  }
  return { re, im };
}

/** Impedance as `whipImpedance`, with the resistance found again from the far field and the gain along perfect ground. Same domain, same RangeError. */
export function whipSolution(whip: Whip): WhipSolution {
  const solved = solveWhip(whip);
  const charge = kinkCharges(solved);
  const quarter = Math.PI / 4;
  let power = 0;
  for (let i = 0; i < SKY.x.length; i++) {
    const theta = quarter * (1 + SKY.x[i]!);
    power += (quarter * SKY.w[i]! * fieldSquared(solved, charge, cos(theta))) / sin(theta);
  }
  const [re, im] = solved.y;
  const norm = re * re + im * im;
  return {
    R_ohm: re / norm,
    X_ohm: -im / norm,
    farFieldR_ohm: ((ETA_OHM / (8 * Math.PI)) * power) / norm,
    directivity_dBi: 10 * log10((2 * fieldSquared(solved, charge, 0)) / power),
  };
}
