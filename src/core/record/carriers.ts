/** What a station had on the air, as carriers: the one count that marks, the debrief and the chart share. */
import type { Emission } from '../signals.ts';
import type { Line } from './record.ts';

type Air = Extract<Line, { k: 'air' }>;
/** A carrier without a break, of one emission on one frequency: from its line to the next; its least and most power, W. */
export type Carrier = {
  from_us: number;
  to_us: number;
  line: number;
  emission: Emission;
  f_Hz: number;
  least_W: number;
  most_W: number;
};

/** Nearer than this it is the same frequency: a keyed shift is less. */
const SAME_HZ = 1000;

/** Whether two things on the air are of one kind and in one place. */
export const alike = (a: Pick<Air, 'emission' | 'f_Hz'>, b: Pick<Air, 'emission' | 'f_Hz'>): boolean =>
  a.emission === b.emission && Math.abs(a.f_Hz - b.f_Hz) < SAME_HZ;

/** The carriers of a station, in order; one that never went down stands to the record's last line. */
export function carriersOf(lines: readonly Line[], station: string): Carrier[] {
  const out: Carrier[] = [];
  let up: Carrier | undefined;
  for (const line of lines) {
    if (line.k !== 'air' || line.station !== station) continue;
    const { t, i, emission, f_Hz, power_W } = line;
    if (up) up.to_us = t;
    if (up && power_W > 0 && alike(up, line)) {
      up.least_W = Math.min(up.least_W, power_W);
      up.most_W = Math.max(up.most_W, power_W);
      continue;
    }
    up = power_W > 0 ? { from_us: t, to_us: t, line: i, emission, f_Hz, least_W: power_W, most_W: power_W } : undefined;
    if (up) out.push(up);
  }
  if (up) up.to_us = lines[lines.length - 1]?.t ?? up.to_us;
  return out;
}

/** How long they were on the air in all, microseconds. */
export const airtime_us = (carriers: readonly Carrier[]): number =>
  carriers.reduce((sum, { from_us, to_us }) => sum + to_us - from_us, 0);
