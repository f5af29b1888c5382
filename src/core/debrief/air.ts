/** What was on the air: own emissions, and words with what the own ear made of them. */
import { grouped, lasting } from '../quantity/time-text.ts';
import type { Line } from '../record/record.ts';
import type { Entry } from './timeline.ts';

/** From and until; the same for an instant. */
export type Span = { from_us: number; to_us: number };

type Air = Extract<Line, { k: 'air' }>;
type Spoke = Extract<Line, { k: 'spoke' }>;
type Carrier = Span & { first: Air; most: Air };
type Heard = Extract<Line, { k: 'heard' }>;

/** The carriers of a station, each with its strongest line; one that never went down stands to `end_us`. */
function carriers(lines: readonly Line[], station: string, end_us: number): Carrier[] {
  const spans: Carrier[] = [];
  let up: Carrier | undefined;
  for (const line of lines) {
    if (line.k !== 'air' || line.station !== station) continue;
    if (line.power_W > 0) {
      up ??= { from_us: line.t, to_us: end_us, first: line, most: line };
      if (line.power_W > up.most.power_W) up.most = line;
    } else if (up) {
      spans.push({ ...up, to_us: line.t });
      up = undefined;
    }
  }
  return up ? [...spans, up] : spans;
}

/** When a station radiated. */
export const airOf = (lines: readonly Line[], station: string, end_us: number): Span[] =>
  carriers(lines, station, end_us).map(({ from_us, to_us }) => ({ from_us, to_us }));

/** Carriers this near to each other are one emission (a key goes up and down). */
const SAME_US = 2_000_000;

const powerText = (W: number): string => (W < 1 ? `${W} W` : `${grouped(Math.round(W))} W`);

/** The own emissions, keyed ones in one piece. */
export function emissionEntries(lines: readonly Line[], own: string, end_us: number): Entry[] {
  const merged: Carrier[] = [];
  for (const one of carriers(lines, own, end_us)) {
    const last = merged[merged.length - 1];
    if (last && one.from_us - last.to_us < SAME_US && one.most.emission === last.most.emission) last.to_us = one.to_us;
    else merged.push({ ...one });
  }
  return merged.map(({ from_us, to_us, first, most }) => ({
    t_us: from_us,
    line: first.i,
    title: `On the air ${lasting(to_us - from_us)}: ${most.emission}, ${grouped(Math.round(most.f_Hz / 1000))} kHz, ${powerText(most.power_W)}`,
  }));
}

const overlaps = (heard: Heard, spoke: Spoke): boolean =>
  heard.by === spoke.by && heard.from_us < spoke.t && heard.t > spoke.from_us;

function spokeText(line: Spoke, own: string, ears: readonly Heard[]): string {
  const by = line.by === 'voice' ? 'by voice' : 'in Morse';
  if (line.station === own) return `You, ${by}: ${line.words}`;
  const heard = ears.find((one) => overlaps(one, line));
  const ear = !heard ? ' - not heard' : heard.words === line.words ? '' : ` - you made out: ${heard.words}`;
  return `${line.station}, ${by}: ${line.words}${ear}`;
}

/** Words on the air from where they began, with what the own ear made of them; and what it heard of nobody's words. */
export function speechEntries(lines: readonly Line[], own: string): Entry[] {
  const ears = lines.filter((line) => line.k === 'heard');
  const spoken = lines.filter((line) => line.k === 'spoke');
  const others = spoken.filter((line) => line.station !== own);
  const strays = ears.filter((heard) => !others.some((line) => overlaps(heard, line)));
  return [
    ...spoken.map((line) => ({ t_us: line.from_us, line: line.i, title: spokeText(line, own, ears) })),
    ...strays.map((line) => ({ t_us: line.from_us, line: line.i, title: `You made out: ${line.words}` })),
  ];
}

/** What was said with nothing on the air. */
export function unheardEntries(lines: readonly Line[], own: string): Entry[] {
  return lines.flatMap((line, at) => {
    if (line.k !== 'do' || line.control !== 'hand.say' || lines[at + 1]?.k === 'refused') return [];
    const next = lines.find(
      (one, n) =>
        n > at && ((one.k === 'spoke' && one.station === own) || (one.k === 'do' && one.control === 'hand.say')),
    );
    return next?.k === 'spoke'
      ? []
      : [{ t_us: line.t, line: line.i, title: `You said, with nothing on the air: ${String(line.value)}` }];
  });
}
