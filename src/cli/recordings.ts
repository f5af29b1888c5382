/** The recordings that a scenario puts on the air: WAV files in the scenario's own folder. */
import { realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Located } from '../core/record/places.ts';
import type { Recording, Recordings } from '../core/samples/recording.ts';
import type { Scenario } from '../core/scenario/scenario.ts';
import { readTree } from '../core/scenario/tree.ts';
import { readRecording } from './sound-file.ts';
import { Plain } from './verb.ts';

/** The largest recording put on the air, bytes: half an hour at 8 kHz and 16 bits. */
const MAX_BYTES = 32 * 1024 * 1024;

/** The file itself; a plain error when it is not in the scenario's folder, by a link for instance. */
function fileBeside(path: string, wav: string): string {
  const file = join(dirname(path), wav);
  try {
    if (dirname(realpathSync(file)) === realpathSync(dirname(path))) return file;
  } catch (e) {
    throw new Plain(`${file}: cannot be read (${(e as NodeJS.ErrnoException).code ?? e})`);
  }
  throw new Plain(`${file}: leads out of the scenario's folder`);
}

/** Reads what the stations of the scenario at `path`, whose text is `text`, put on the air. Faults stand where the text names the file. */
export function readRecordings(
  { stations }: Scenario,
  text: string,
  path: string,
): { recordings: Recordings; errors: Located[] } {
  const recordings = new Map<string, Recording>();
  const errors: Located[] = [];
  for (const [i, { kind, with: given }] of stations.entries()) {
    if (kind !== 'recording') continue;
    const { wav } = given as { wav: string };
    try {
      if (!recordings.has(wav)) recordings.set(wav, readRecording(fileBeside(path, wav), MAX_BYTES));
    } catch (e) {
      if (!(e instanceof Plain)) throw e;
      const read = readTree(text, path);
      if (!read.ok) return { recordings, errors: read.errors };
      const { tree } = read;
      const offset = tree.at(['stations', i, 'with', 'wav']);
      errors.push(tree.places.error('bad-recording', offset, `a WAV file beside the scenario; ${e.message}`));
    }
  }
  return { recordings, errors };
}
