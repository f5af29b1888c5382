/** What the ribbon's windows show, each from the look inside its link: the numbers that the drill runs on. */
import type { Inside, LinkName } from '../core/drill.ts';
import { LINKS } from '../core/drill.ts';
import type { Wave } from './faces/ribbon.ts';
import type { Sight } from './host.ts';
import { glyphOf } from './inside/letter.ts';
import type { Reach } from './reach.ts';

/** The looks cost some 12 ms together, so they are taken anew no sooner than this, us of drill time. */
const STANDS_US = 200_000;
/** Points across a window. */
const POINTS = 120;
/** So much of the air either side of the frequency tuned to. */
const AIR_HZ = 1000;
/** A voice is wider. */
const VOICE_AIR_HZ = 3000;
/** From a window's floor to its top. */
const AIR_DB = 60;
/** Phase from point to point of a carrier drawn slowed down. */
const CARRIER_TURN = 1.3;

type Look<L extends LinkName> = Extract<Inside, { link: L }>;
type Pieces = Look<'loop'>['loop'];

/** The keyer's place among the links. */
const KEYER = LINKS.indexOf('keyer');
const IDLE: Wave = { kind: 'idle' };
const round = (x: number): number => Math.round(100 * x) / 100;
const across = <T>(f: (share: number) => T): T[] => Array.from({ length: POINTS + 1 }, (_, i) => f(i / POINTS));
const isMark = (pieces: Pieces, share: number): boolean =>
  (pieces.find((p) => share < p.to) ?? pieces.at(-1))?.mark ?? true;

const pulses = (pieces: Pieces): Wave => ({
  kind: 'trace',
  samples: across((share) => (isMark(pieces, share) ? 0.8 : -0.8)),
});

/** The carrier as the loop shifts it, far slower than it is, so that the eye can see two tones. */
function shifted(pieces: Pieces, slow: number, size: number): Wave {
  let phase = 0;
  const samples = across((share) => {
    phase += isMark(pieces, share) ? slow : 1.8 * slow;
    return round(size * Math.sin(phase));
  });
  return { kind: 'trace', samples };
}

/** A carrier that keeps its frequency, as large as it was over the last moments: bare, keyed, or swelling with a voice. */
function swelling(size: readonly number[]): Wave {
  let phase = 0;
  const samples = across((share) => {
    phase += CARRIER_TURN;
    return round((size[Math.round(share * (size.length - 1))] ?? 0) * Math.sin(phase));
  });
  return { kind: 'trace', samples };
}

function byHand({ by, words, handKey, letters, contact }: Look<'keys'>): Wave {
  if (by === 'voice') return { kind: 'letter', text: (words.at(-1) ?? '').slice(0, 8) };
  if (by === 'hand key') return pulses(handKey);
  const codes = letters.slice(-4).map((l) => l.code);
  return codes.length > 0 ? { kind: 'holes', codes, now: codes.length - 1 } : pulses(contact);
}

/** Field strength on its way down to the noise. */
function alongTheWay({ ground_dBuV: E, field_dBuV, noise_dBuV }: Look<'ether'>): Wave {
  const seen = E.length > 0 ? [0, 0.2, 0.4, 0.6, 0.8, 1].map((share) => E[Math.round(share * (E.length - 1))]!) : [];
  const fields = field_dBuV === null ? seen : [...seen.slice(0, 5), field_dBuV];
  const top = Math.max(...fields);
  const over = (field: number) => (field - noise_dBuV) / (top - noise_dBuV);
  return { kind: 'bars', heights: fields.map((f) => round(Math.min(0.95, Math.max(0.06, 0.95 * over(f))))) };
}

/** The air `half_Hz` either side of the frequency tuned to; `top_dB` is drawn at the top. */
function air(spectrum: Look<'receiver'>['before'], half_Hz: number, top_dB: number): Wave {
  if (!spectrum) return IDLE;
  const { from_Hz, to_Hz, dB } = spectrum;
  const at = (f_Hz: number) => dB[Math.round(((f_Hz - from_Hz) / (to_Hz - from_Hz)) * (dB.length - 1))] ?? -Infinity;
  const samples = across((share) => at(half_Hz * (2 * share - 1)));
  return { kind: 'trace', samples: samples.map((x) => round(Math.max(-0.95, 0.95 + (1.9 * (x - top_dB)) / AIR_DB))) };
}

const topOf = (spectrum: Look<'receiver'>['before']): number => Math.max(-200, ...(spectrum?.dB ?? []));

/** The decision as far as it has come, and where it was looked at. */
function decided({ decision, units, window: w }: Look<'terminal unit'>): Wave {
  if (decision.length === 0) return IDLE;
  const now = Math.min(1, (w.now_us - w.from_us) / (w.to_us - w.from_us));
  const all = across((share) => round(0.8 * decision[Math.round(share * (decision.length - 1))]!));
  return {
    kind: 'decision',
    samples: all.slice(0, 1 + Math.round(now * POINTS)),
    of: all.length,
    marks: units.filter((u) => u.isRead).map((u) => Math.round(u.at * POINTS)),
  };
}

function printed({ letters, window: w }: Look<'print'>): Wave {
  const whole = letters.filter((l) => l.start_us + 7 * 20_000 <= w.now_us).at(-1);
  return whole ? { kind: 'letter', text: glyphOf(whole.name) } : IDLE;
}

function looksOf({ drill }: Sight, { lit, hidden }: Reach): Wave[] {
  const shows = (i: number) => lit[i] && !(hidden && i >= hidden[0] && i <= hidden[1]);
  const inside = <L extends LinkName>(link: L) => drill.inside(link) as Look<L>;
  const any = (from: number, to: number) => LINKS.some((_, i) => i >= from && i <= to && shows(i));
  const loop = any(1, 3) ? inside('loop').loop : [];
  const unit = any(6, 8) ? inside('terminal unit') : null;
  const top = topOf(unit?.before ?? null);
  const half_Hz = unit?.on === 'voice' || unit?.on === 'sound' ? VOICE_AIR_HZ : AIR_HZ;
  // What the loop does not shift keeps its frequency.
  const carrier = () => (lit[KEYER] ? shifted(loop, 0.9, 1) : swelling(inside('sender').size));
  const waves: (() => Wave)[] = [
    () => byHand(inside('keys')),
    () => pulses(loop),
    () => shifted(loop, 0.5, 0.75),
    carrier,
    () => ({ kind: 'field', phase: 0.2 }),
    () => alongTheWay(inside('ether')),
    () => air(unit?.before ?? null, half_Hz, top),
    () => air(unit?.spectrum ?? null, half_Hz, top),
    () => (unit ? decided(unit) : IDLE),
    () => printed(inside('print')),
  ];
  return waves.map((wave, i) => (shows(i) ? wave() : IDLE));
}

/** The windows of one ribbon; they stand a moment before they are looked into again. */
export class Waves {
  private from_us = Number.NEGATIVE_INFINITY;
  private asked = '';
  private waves: Wave[] = [];

  /** A wave a link, for as far as the signal gets. */
  of(sight: Sight, reach: Reach): Wave[] {
    const asked = JSON.stringify(reach);
    const age_us = sight.now_us - this.from_us;
    if (asked === this.asked && age_us >= 0 && age_us < STANDS_US) return this.waves;
    this.from_us = sight.now_us;
    this.asked = asked;
    this.waves = reach.lit.includes(true) ? looksOf(sight, reach) : [];
    return this.waves;
  }
}
