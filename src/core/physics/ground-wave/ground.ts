/** Electrical ground and what the ground-wave formulas make of it at one frequency. */
import { add, type Complex, complex, csqrt, div, modulus, scale } from '../../numeric/complex.ts';
import { exp, pow } from '../../numeric/elementary.ts';

/** Ground as ITU-R P.527 describes it: relative permittivity (>= 1) and conductivity in siemens a metre (> 0). */
export interface Ground {
  readonly eps_r: number;
  readonly sigma_S_per_m: number;
}

/** Named grounds of ITU-R P.368 and P.527 (values from memory; `average` is the common 0.005 S/m, 15). */
export const grounds = {
  sea: { eps_r: 70, sigma_S_per_m: 5 },
  lowSalinitySea: { eps_r: 80, sigma_S_per_m: 1 },
  freshWater: { eps_r: 80, sigma_S_per_m: 0.003 },
  land: { eps_r: 40, sigma_S_per_m: 0.03 },
  wet: { eps_r: 30, sigma_S_per_m: 0.01 },
  average: { eps_r: 15, sigma_S_per_m: 0.005 },
  mediumMoist: { eps_r: 22, sigma_S_per_m: 0.003 },
  mediumDry: { eps_r: 15, sigma_S_per_m: 0.001 },
  dry: { eps_r: 7, sigma_S_per_m: 0.0003 },
  veryDry: { eps_r: 3, sigma_S_per_m: 0.0001 },
} as const satisfies Record<string, Ground>;

/** Name of a ground in `grounds`. */
export type GroundName = keyof typeof grounds;

/** V for a vertical, H for a horizontal electric field. */
export type Polarization = 'V' | 'H';

/** Everything of a ground-wave path that does not depend on distance, height or power. */
export interface Surface {
  readonly f_MHz: number;
  /** Wave number 2 pi / lambda, 1/m. */
  readonly k_per_m: number;
  /** Effective Earth radius, m. */
  readonly a_e_m: number;
  /** (k a_e / 2)^(1/3), the large parameter of diffraction. */
  readonly nu: number;
  /** Normalised surface impedance. */
  readonly delta: Complex;
  /** -j nu delta, the boundary condition of the residue series. */
  readonly q: Complex;
}

const LIGHT_M_PER_S = 299_792_458;
const EPSILON_0 = 8.854187817e-12;
const ACTUAL_RADIUS_M = 6_370_000;

function within(what: string, x: number, low: number, high: number): void {
  if (!(x >= low && x <= high)) throw new RangeError(`${what} must be from ${low} to ${high}, got ${x}`);
}

/** Throws RangeError unless eps_r is 1..100 and sigma above 0 up to 100 S/m. */
export function checkGround(ground: Ground): void {
  within('eps_r', ground.eps_r, 1, 100);
  within('sigma_S_per_m', ground.sigma_S_per_m, 1e-9, 100);
}

/** Complex relative permittivity eta = eps_r - j sigma / (2 pi f eps0), time factor e^(+jwt). */
export const permittivity = (ground: Ground, f_MHz: number): Complex =>
  complex(ground.eps_r, -ground.sigma_S_per_m / (2e6 * Math.PI * f_MHz * EPSILON_0));

/** Effective Earth radius in metres for a surface refractivity of 250..400 N-units (exponential-atmosphere gradient, CRPL). */
export function effectiveRadius_m(N_s: number): number {
  within('N_s', N_s, 250, 400);
  return ACTUAL_RADIUS_M / (1 - 0.04665 * exp(0.005577 * N_s));
}

/** The surface seen at f_MHz 1..30 over one ground; throws RangeError outside. */
export function surface(f_MHz: number, ground: Ground, N_s: number, pol: Polarization): Surface {
  within('f_MHz', f_MHz, 1, 30);
  checkGround(ground);
  const a_e_m = effectiveRadius_m(N_s);
  const k_per_m = (2e6 * Math.PI * f_MHz) / LIGHT_M_PER_S;
  const nu = pow((k_per_m * a_e_m) / 2, 1 / 3);
  const eta = permittivity(ground, f_MHz);
  const root = csqrt(add(eta, complex(-1)));
  const delta = pol === 'V' ? div(root, eta) : root;
  return { f_MHz, k_per_m, a_e_m, nu, delta, q: complex(nu * delta.im, -nu * delta.re) };
}

/** |1 + j k h delta|, the gain of raising one aerial h_m metres over a flat earth. */
export const heightFactor = ({ k_per_m, delta }: Surface, h_m: number): number =>
  modulus(add(complex(1), scale(complex(-delta.im, delta.re), k_per_m * h_m)));
