import type { Face } from '../kit/face.ts';
import { EDGE, FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { at, circle, poly, rrect, ticks } from '../kit/path.ts';

/** A clock whose short hand goes round once in 24 hours, with the time in figures under it. x, y is its centre; r 45. */
export interface ClockSpec {
  x: number;
  y: number;
  r: number;
  /** Print the figures under it; default true. */
  figures?: boolean;
}

const two = (v: number): string => String(v).padStart(2, '0');

/** Hours, minutes and seconds of a second of the day, as the log writes them. */
export function timeWords(second: number): string {
  const s = ((Math.floor(second) % 86400) + 86400) % 86400;
  return `${two(Math.floor(s / 3600))} ${two(Math.floor(s / 60) % 60)} ${two(s % 60)}`;
}

/** The hour hand of a 24-hour dial with 24 on top: noon is down. */
const liveOps = ({ x, y, r, figures = true }: ClockSpec, second: number): Op[] => {
  const hour = (second / 86400) * 360;
  const minute = ((second % 3600) / 3600) * 360;
  return [
    line(poly([[x, y], at(x, y, 0.5 * r, hour)]), Math.max(2, 0.095 * r)),
    line(poly([[x, y], at(x, y, 0.76 * r, minute)]), Math.max(1.2, 0.045 * r)),
    solid(circle(x, y, 0.075 * r), 'ink'),
    ...(figures ? plate(x, y, r, timeWords(second)) : []),
  ];
};

function plate(x: number, y: number, r: number, text: string): Op[] {
  return [
    shape(rrect(x - r, y + 0.84 * r, 2 * r, 24, 5), 'sheet', LINE, 'ink', { snap: true }),
    words(text, x, y + 0.84 * r + 18, { mono: true, bold: true, size: 16, anchor: 'middle' }),
  ];
}

/** Value: second of the day, UTC. */
export const clock: Face<ClockSpec, number> = {
  natural: { w: 96, h: 116 },
  staticOps: ({ x, y, r }) => {
    const hours = Array.from({ length: 24 }, (_, i) => 15 * i);
    const long = hours.filter((a) => a % 90 === 0);
    const short = hours.filter((a) => a % 90 !== 0);
    return [
      solid(circle(x + 5, y + 6, r), 'shade'),
      shape(circle(x, y, r), 'sheet', EDGE),
      line(circle(x, y, 0.94 * r), FINE * 0.8),
      line(ticks(x, y, 0.8 * r, 0.89 * r, short), FINE + 0.2, 'ink', { cap: 'butt' }),
      line(ticks(x, y, 0.75 * r, 0.89 * r, long), LINE + 0.5, 'ink', { cap: 'butt' }),
      words('24', x, y - 0.42 * r, { anchor: 'middle', fill: 'ink2' }),
    ];
  },
  liveOps,
  tileBox: ({ x, y, r, figures = true }) => ({
    left: x - r - 2,
    top: y - 0.82 * r,
    right: x + r + 2,
    bottom: y + Math.max(0.82 * r, figures ? 0.84 * r + 26 : 0),
  }),
};
