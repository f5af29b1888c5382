/** Times and numbers as the trade writes them. */

const two = (n: number): string => String(n).padStart(2, '0');

/** Whole seconds since midnight of `HH:MM:SS`; parts left out are 0. */
export function secondsOfDay(utc: string): number {
  const [h = 0, m = 0, s = 0] = utc.split(':').map(Number);
  return h * 3600 + m * 60 + s;
}

/** Time of day as `HH MM SS`, drill time `t_us` after `utc0_s` seconds since midnight; days wrap. */
export function utcText(utc0_s: number, t_us: number): string {
  const s = (((utc0_s + Math.floor(t_us / 1e6)) % 86_400) + 86_400) % 86_400;
  return `${two(Math.floor(s / 3600))} ${two(Math.floor(s / 60) % 60)} ${two(s % 60)}`;
}

/** Time of day as `HH MM SS`, from `HH:MM:SS` at drill time 0. */
export const utcAt = (utc0: string, t_us: number): string => utcText(secondsOfDay(utc0), t_us);

/** A length of time: `5.8 s` under a minute, `5 min 54 s` from then on; rounded down, as a clock is read. */
export function lasting(us: number): string {
  if (us < 60e6) return `${(Math.floor(us / 1e5) / 10).toFixed(1)} s`;
  const s = Math.floor(us / 1e6);
  return `${Math.floor(s / 60)} min ${two(s % 60)} s`;
}

/** A length of time that went over a limit: `20.1 s`, `3 min 00.4 s`; rounded up, so that it never reads as within it. */
export function overLimit(us: number): string {
  const tenths = Math.ceil(us / 1e5);
  if (tenths < 600) return `${(tenths / 10).toFixed(1)} s`;
  return `${Math.floor(tenths / 600)} min ${((tenths % 600) / 10).toFixed(1).padStart(4, '0')} s`;
}

/** A number with its thousands apart: `4 718 035`, `0.5`. */
export function grouped(n: number): string {
  const [whole = '', part] = String(n).split('.');
  const apart = whole.replace(/\B(?=(\d{3})+$)/g, ' ');
  return part === undefined ? apart : `${apart}.${part}`;
}

/** A frequency in Hz as kHz with the hertz behind the point: `4 718.035 kHz`; under 10 kHz in Hz. */
export const frequencyText = (f_Hz: number): string =>
  Math.abs(f_Hz) < 10_000 ? `${grouped(f_Hz)} Hz` : `${(f_Hz / 1000).toFixed(3).replace(/\B(?=(\d{3})+\.)/g, ' ')} kHz`;

/** `once`, `twice`, `3 times`. */
export const times = (n: number): string => (n === 1 ? 'once' : n === 2 ? 'twice' : `${n} times`);
