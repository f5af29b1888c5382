/** A record worked again from what it says was done, and nothing else. */
import { KINDS } from '../../src/core/catalogue.ts';
import { Drill, type Snapshot } from '../../src/core/drill.ts';
import { readRecord, writeRecord } from '../../src/core/record/format.ts';
import type { DrillRecord } from '../../src/core/record/record.ts';
import { parseScenario } from '../../src/core/scenario/scenario.ts';

/** Reads a record's text; fails with its first error. */
export function recordOf(text: string): DrillRecord {
  const read = readRecord(text);
  if (!read.ok) throw new Error(JSON.stringify(read.errors[0]));
  return read.record;
}

/** The text of the record that the same acts, help and interruptions make headless; saved and restored at every `every`-th. */
export function replayed(text: string, every = Number.POSITIVE_INFINITY): string {
  const { header, lines } = recordOf(text);
  const { name, scenario, seed, manner, stretch } = header;
  const made = parseScenario(scenario, KINDS, { file: name, seed });
  if (!made.ok) throw new Error(JSON.stringify(made.errors[0]));
  const setting = { name, scenario, seed, manner, stretch };
  let drill = new Drill(made.scenario, setting);
  const given = lines.filter((l) => l.k === 'do' || l.k === 'help' || l.k === 'interruption');
  for (const [i, line] of given.entries()) {
    // Half way to the event, so that what is under way is saved, too.
    if (i % every === every - 1) {
      drill.advance(Math.floor((drill.now_us + line.t) / 2));
      drill = new Drill(made.scenario, setting, JSON.parse(drill.save()) as Snapshot);
    }
    drill.advance(line.t);
    if (line.k === 'do') drill.act(line.control, line.value);
    else if (line.k === 'help') drill.remark({ k: 'help', what: line.what });
    else if (line.k === 'interruption') drill.remark({ k: 'interruption', wall_ms: line.wall_ms, why: line.why });
  }
  return writeRecord(drill.record);
}

/** A record without what is only told to the trainee or about the program, numbered anew. */
export function bare({ header, lines }: DrillRecord): DrillRecord {
  const kept = lines.filter((l) => l.k !== 'help' && l.k !== 'interruption');
  return { header, lines: kept.map((l, n) => ({ ...l, i: n + 1 })) };
}
