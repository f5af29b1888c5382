/** The record told as people remember it: what was done, said, heard, printed, put on the air, and what went wrong. */
import { lasting, utcAt } from '../quantity/time-text.ts';
import { carriersOf } from '../record/carriers.ts';
import { boxName, capital, modeName, type Names, plain, told } from '../record/names.ts';
import type { DrillRecord, Line } from '../record/record.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { Acts } from './acts.ts';
import { emissionEntries, speechEntries, unheardEntries } from './air.ts';
import type { Finding } from './finding.ts';
import { mutedKeys, printEntries } from './print.ts';

/** Something that happened at drill time `t_us`, with its record line. */
export type Entry = { t_us: number; line: number; title: string };
/** An entry with its time of day, `HH MM SS`. */
export type Event = Entry & { utc: string };

type Telling = { scenario: Scenario; manner: string; names: Names };

function helpText(what: string, { scenario, manner }: Telling): string {
  const step = scenario.steps.find((one) => one.id === what);
  return `${manner === 'shown' ? 'Shown' : 'Help'}: ${step?.title ?? plain(what)}`;
}

function titleOf(line: Line, telling: Telling): string | undefined {
  switch (line.k) {
    case 'far':
      return capital(told(telling.names, line.station, line.what, line.detail));
    case 'log':
      return `In the log: ${line.text}`;
    case 'help':
      return helpText(line.what, telling);
    case 'interruption':
      return `Away for ${lasting(line.wall_ms * 1000)}: ${line.why}`;
    case 'end':
      return `End: ${line.why}`;
    default:
      return undefined;
  }
}

/** Modes that a box came to by itself; those at the instant of an act are told by the act. */
function modeEntries(lines: readonly Line[], names: Names): Entry[] {
  const acts = new Set(lines.flatMap((line) => (line.k === 'do' ? [line.t] : [])));
  return lines.flatMap((line) =>
    line.k === 'mode' && line.t > 0 && !acts.has(line.t)
      ? [
          {
            t_us: line.t,
            line: line.i,
            title: `${capital(boxName(names, line.box))}: ${modeName(names, line.box, line.mode)}`,
          },
        ]
      : [],
  );
}

function actEntries(lines: readonly Line[], scenario: Scenario, names: Names): Entry[] {
  const acts = new Acts(names, scenario.own.controls);
  for (const [at, line] of lines.entries()) {
    if (line.k !== 'do') continue;
    const next = lines.slice(at + 1, at + 8).find((one) => one.k === 'refused' || one.k === 'do');
    acts.take(line, next?.k === 'refused' && next.control === line.control && next.t === line.t ? next : undefined);
  }
  return acts.all();
}

/** A finding stands after the line it points at, or after all that had happened by its deadline. */
function findingEntries(findings: readonly Finding[], lines: readonly Line[]): Entry[] {
  return findings
    .filter((f) => f.exercised)
    .map((f) => {
      const at = lines[(f.because[0] ?? 0) - 1];
      const line = at?.t === f.at_us ? at.i : lines.length;
      return { t_us: f.at_us, line, title: `${f.head} - ${f.happened}` };
    });
}

/**
 * Everything in order of time; of one instant, in the order of the record, and a finding after the line it points at.
 * What was never tried has no place in it.
 */
export function timelineOf(
  record: DrillRecord,
  scenario: Scenario,
  names: Names,
  findings: readonly Finding[],
): Event[] {
  const { header, lines } = record;
  const own = scenario.own.call;
  const telling = { scenario, manner: header.manner, names };
  const single = lines.flatMap((line) => {
    const title = titleOf(line, telling);
    return title === undefined ? [] : [{ t_us: line.t, line: line.i, title }];
  });
  return [
    ...single,
    ...actEntries(lines, scenario, names),
    ...modeEntries(lines, names),
    ...emissionEntries(carriersOf(lines, own)),
    ...speechEntries(lines, own),
    ...unheardEntries(lines, own),
    ...printEntries(lines),
    ...mutedKeys(lines),
    ...findingEntries(findings, lines),
  ]
    .sort((a, b) => a.t_us - b.t_us || a.line - b.line)
    .map((entry) => ({ ...entry, utc: utcAt(scenario.world.utc, entry.t_us) }));
}
