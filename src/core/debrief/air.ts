/** What was on the air: own emissions, and words with what the own ear made of them. */
import { grouped, lasting } from '../quantity/time-text.ts';
import { alike, type Carrier } from '../record/carriers.ts';
import type { Line } from '../record/record.ts';
import type { Entry } from './timeline.ts';

/** From and until; the same for an instant. */
export type Span = { from_us: number; to_us: number };

type Spoke = Extract<Line, { k: 'spoke' }>;
type Heard = Extract<Line, { k: 'heard' }>;

/** Carriers this near to each other and alike are one emission (a key goes up and down). */
const SAME_US = 2_000_000;
/** Of nearly the same power, too. */
const SAME_POWER = 1.1;

type Emission = { first: Carrier; last: Carrier; up_us: number };

const belongs = ({ last }: Emission, one: Carrier): boolean =>
  one.from_us - last.to_us < SAME_US &&
  alike(last, one) &&
  Math.max(last.most_W, one.most_W) <= SAME_POWER * Math.min(last.most_W, one.most_W);

const figure = (W: number): string => (W < 1 ? String(W) : grouped(Math.round(W)));
/** What the whip radiates, which is less than the meter of the power that goes up to it shows. */
const powerText = (least_W: number, most_W: number): string =>
  most_W > SAME_POWER * least_W ? `${figure(least_W)} to ${figure(most_W)} W radiated` : `${figure(most_W)} W radiated`;
/** Shorter than the tenth of a second in which lengths are told. */
const BLIP_US = 100_000;

/** The own emissions, keyed ones in one piece; each with the time that its carrier was up. */
export function emissionEntries(carriers: readonly Carrier[]): Entry[] {
  const emissions: Emission[] = [];
  for (const one of carriers) {
    const open = emissions[emissions.length - 1];
    const up_us = one.to_us - one.from_us;
    if (open && belongs(open, one)) Object.assign(open, { last: one, up_us: open.up_us + up_us });
    else emissions.push({ first: one, last: one, up_us });
  }
  return emissions.map(({ first, up_us }) => ({
    t_us: first.from_us,
    line: first.line,
    title: `On the air ${up_us < BLIP_US ? 'for a blip' : lasting(up_us)}: ${first.emission}, ${grouped(Math.round(first.f_Hz / 1000))} kHz, ${powerText(first.least_W, first.most_W)}`,
  }));
}

/** For each utterance what the ear had of it: pieces that overlap it in time, of the same way of sending, in order. */
function heardOf(spoken: readonly Spoke[], ears: readonly Heard[]): Map<Spoke, Heard[]> {
  const out = new Map<Spoke, Heard[]>();
  for (const by of ['voice', 'morse'] as const) {
    const pieces = ears.filter((one) => one.by === by).sort((a, b) => a.from_us - b.from_us);
    let next = 0;
    // What has begun and was not over when the last utterance began.
    let open: Heard[] = [];
    for (const line of spoken.filter((one) => one.by === by).sort((a, b) => a.from_us - b.from_us)) {
      for (; next < pieces.length && (pieces[next] as Heard).from_us < line.t; next++) open.push(pieces[next] as Heard);
      open = open.filter((one) => one.t > line.from_us);
      out.set(
        line,
        open.filter((one) => one.from_us < line.t),
      );
    }
  }
  return out;
}

function spokeText(line: Spoke, own: string, heard: readonly Heard[]): string {
  const by = line.by === 'voice' ? 'by voice' : 'in Morse';
  if (line.station === own) return `You, ${by}: ${line.words}`;
  const said = `${line.station}, ${by}: ${line.words}`;
  if (heard.length === 0) return `${said} - not heard`;
  const words = heard.map((one) => one.words);
  return words.join(' ') === line.words ? said : `${said} - you made out: ${words.join(' / ')}`;
}

/** Words on the air from where they began, with what the own ear made of them; and what it heard of nobody's words. */
export function speechEntries(lines: readonly Line[], own: string): Entry[] {
  const ears = lines.filter((line) => line.k === 'heard');
  const spoken = lines.filter((line) => line.k === 'spoke');
  const heard = heardOf(
    spoken.filter((line) => line.station !== own),
    ears,
  );
  const known = new Set(Array.from(heard.values()).flat());
  return [
    ...spoken.map((line) => ({
      t_us: line.from_us,
      line: line.i,
      title: spokeText(line, own, heard.get(line) ?? []),
    })),
    ...ears
      .filter((line) => !known.has(line))
      .map((line) => ({ t_us: line.from_us, line: line.i, title: `You made out: ${line.words}` })),
  ];
}

/** What was said with nothing on the air. */
export function unheardEntries(lines: readonly Line[], own: string): Entry[] {
  const out: Entry[] = [];
  let said: Extract<Line, { k: 'do' }> | undefined;
  const close = () => {
    if (said)
      out.push({ t_us: said.t, line: said.i, title: `You said, with nothing on the air: ${String(said.value)}` });
  };
  for (const [at, line] of lines.entries()) {
    if (line.k === 'spoke' && line.station === own) said = undefined;
    if (line.k !== 'do' || line.control !== 'hand.say') continue;
    close();
    said = lines[at + 1]?.k === 'refused' ? undefined : line;
  }
  close();
  return out;
}
