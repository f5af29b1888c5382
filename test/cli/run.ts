/** Runs the command line as a user does, in a process of its own. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export type Ran = { code: number | null; out: string; err: string };

/** `keydown ...args`, with `input` on standard input. */
export function keydown(args: readonly string[], input = ''): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/main.ts', ...args], {
    input,
    encoding: 'utf8',
  });
  return { code: status, out: stdout, err: stderr };
}

/** A folder for the files of one test file. */
export const scratch = (): string => mkdtempSync(join(tmpdir(), 'keydown-test-'));
