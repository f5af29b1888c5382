/** How drawn things come to a new value: short and physical. A stilled panel (reduced motion) skips all of it. */
import type { LampValue } from './faces/lamp.ts';

/** A value under way and how fast it goes. */
export type Moving<V> = { at: V; speed: number };

/** One step of dt seconds towards `to`; null when it has arrived. */
export type Motion<V> = { step(was: Moving<V>, to: V, dt_s: number): Moving<V> | null }['step'];

const SUB_S = 0.004;

/** A second-order system of natural frequency f and damping z, done when within `near`. */
export function spring(f_Hz: number, z: number, near: number): Motion<number> {
  const w = 2 * Math.PI * f_Hz;
  return ({ at, speed }, to, dt_s) => {
    for (let left = dt_s; left > 0; left -= SUB_S) {
      const h = Math.min(SUB_S, left);
      speed += h * (w * w * (to - at) - 2 * z * w * speed);
      at += h * speed;
    }
    return Math.abs(to - at) < near && Math.abs(speed) < near * w ? null : { at, speed };
  };
}

/** A needle: 2 Hz, damping 0.7. */
export const needle = (range: number): Motion<number> => spring(2, 0.7, range * 0.002);
/** A lever: thrown in 140 ms, 4 per cent over. */
export const thrown: Motion<number> = spring(4.6, 0.715, 0.01);
/** A knob falls into its detent in 90 ms. */
export const detent: Motion<number> = spring(9, 1, 0.01);

/** A drum rolls a digit in 120 ms, the short way round its ten. */
export const rolled: Motion<number> = ({ at }, to, dt_s) => {
  const turn = ((((to - at) % 10) + 15) % 10) - 5;
  const step = (dt_s / 0.12) * Math.max(1, Math.abs(turn) * 0.6);
  if (Math.abs(turn) <= step) return null;
  return { at: (at + Math.sign(turn) * step + 10) % 10, speed: 0 };
};

/** A lamp warms in 180 ms and cools in 300. */
export const glows: Motion<LampValue> = ({ at }, to, dt_s) => {
  const lit = to.state !== 'dark';
  const glow = at.state === 'dark' ? 0 : (at.glow ?? 1);
  const next = glow + (lit ? dt_s / 0.18 : -dt_s / 0.3);
  if (next >= 1 || next <= 0) return null;
  return { at: { state: lit ? to.state : at.state, glow: next }, speed: 0 };
};
