/** The record told as events that people remember. */
import type { DrillRecord, Line } from '../record/record.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** Something that happened, with its record line. */
export type Event = { t_us: number; utc: string; title: string; line: number };

const two = (n: number): string => String(n).padStart(2, '0');

/** Time of day of drill time `t_us` as `HH MM SS`, from `HH:MM:SS` at instant 0. */
export function utcAt(utc0: string, t_us: number): string {
  const [h = 0, m = 0, s = 0] = utc0.split(':').map(Number);
  const all = (h * 3600 + m * 60 + s + Math.floor(t_us / 1e6)) % 86_400;
  return `${two(Math.floor(all / 3600))} ${two(Math.floor(all / 60) % 60)} ${two(all % 60)}`;
}

function titleOf(line: Line, own: string): string | undefined {
  switch (line.k) {
    case 'spoke':
      return `${line.station === own ? 'you' : line.station} by ${line.by}: ${line.words}`;
    case 'far':
      return `${line.station === 'own' ? 'your station' : line.station}: ${line.what}`;
    case 'log':
      return `log: ${line.text}`;
    case 'refused':
      return `refused: ${line.control}, ${line.why}`;
    case 'help':
      return `help: ${line.what}`;
    case 'interruption':
      return `away for ${Math.round(line.wall_ms / 1000)} s: ${line.why}`;
    case 'end':
      return `end: ${line.why}`;
    default:
      return undefined;
  }
}

/** Speech, what distant stations did, log, refusals, help, interruptions and the end, in order. */
export function timelineOf(record: DrillRecord, scenario: Scenario): Event[] {
  return record.lines.flatMap((line) => {
    const title = titleOf(line, scenario.own.call);
    return title === undefined ? [] : [{ t_us: line.t, utc: utcAt(scenario.world.utc, line.t), title, line: line.i }];
  });
}
