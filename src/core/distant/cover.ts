/** Who talks over what a station sends: one rule for all that send something to somebody. */
import type { Arrival } from '../signals.ts';
import type { FarBench, FarState } from './correspondent.ts';

/** A carrier this near takes the channel up, Hz. */
const NEAR_HZ = 3000;
/** Who begins within a second of it could not know, nor who has keyed Morse with no longer pause (common practice). */
const AT_ONCE_US = 1_000_000;
/** In its last half second nothing is lost. */
const TAIL_US = 500_000;

/** What a station sends in one go, and who else was on the channel meanwhile. */
export type Outgoing = {
  /** From when to when it can be talked over. */
  from_us: number;
  to_us: number;
  /** The last look at the channel, and when each other station was last heard there. */
  looked_us: number;
  heard: Record<string, number>;
  /** Who has been noted already. */
  noted: string[];
};
/** A station that sends something; `outgoing` is null when it sends nothing. */
export type Sender = FarState & { outgoing: Outgoing | null };

/** Carriers of others on a channel at an instant, the strongest first. */
export const othersOn = (bench: FarBench, f_Hz: number, t_us: number): Arrival[] =>
  bench.ear.arrivals(t_us).filter((a) => Math.abs(a.f_Hz - f_Hz) < NEAR_HZ);

/** Whoever came on the air since the last look is noted, once for what is sent in one go. */
function look(s: Sender, o: Outgoing, bench: FarBench, f_Hz: number, t_us: number): void {
  for (const { station, emission } of othersOn(bench, f_Hz, t_us)) {
    const last_us = o.heard[station] ?? Number.NEGATIVE_INFINITY;
    const goesOn = last_us === o.looked_us || (emission === 'A1A' && t_us - last_us <= AT_ONCE_US);
    o.heard[station] = t_us;
    if (t_us <= o.from_us || goesOn || o.noted.includes(station)) continue;
    o.noted.push(station);
    bench.note({ k: 'far', station: s.call, what: 'covered', detail: { by: station } });
  }
  o.looked_us = t_us;
}

/** It begins to send now what has just been planned on its radiation. */
export function beginOutgoing(s: Sender, bench: FarBench, f_Hz: number): void {
  const { now_us } = bench;
  const end_us = s.radiation.steps[s.radiation.steps.length - 1]?.t_us ?? now_us;
  s.outgoing = { from_us: now_us + AT_ONCE_US, to_us: end_us - TAIL_US, looked_us: now_us, heard: {}, noted: [] };
  look(s, s.outgoing, bench, f_Hz, now_us);
}

/** The air stirred: note who goes on the air while it sends. Whose carrier has stood without a break since before is not noted. */
export function noteCover(s: Sender, bench: FarBench, f_Hz: number): void {
  const { outgoing: o } = s;
  if (!o) return;
  const { now_us } = bench;
  if (now_us >= o.to_us) s.outgoing = null;
  else {
    if (o.looked_us < o.from_us && now_us > o.from_us) look(s, o, bench, f_Hz, o.from_us);
    look(s, o, bench, f_Hz, now_us);
  }
}
