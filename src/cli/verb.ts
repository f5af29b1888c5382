/** What a verb is, and what all verbs share: exit codes, plain errors, reading files and flags. */
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { type ParseArgsConfig, parseArgs } from 'node:util';

/** One word of the command line. `run` gives the exit code. */
export type Verb = { help: string; run(args: string[]): number | Promise<number> };

/** Done, and what was asked holds. */
export const OK = 0;
/** A file is faulty, or a drill got stuck: the answer is no. */
export const FAULTY = 1;
/** The call's words are off. */
export const USAGE = 2;

/** An error for people: its message is all there is to say. */
export class Plain extends Error {
  constructor(
    message: string,
    readonly exitCode = FAULTY,
  ) {
    super(message);
  }
}

/** No file that a verb reads is larger, bytes. */
const MAX_BYTES = 64 * 1024 * 1024;

/** A text file's contents; a plain error when it cannot be read or is too large. */
export function readText(path: string): string {
  try {
    const { size } = statSync(path);
    if (size > MAX_BYTES) throw new Plain(`${path}: ${size} bytes is more than ${MAX_BYTES}`);
    return readFileSync(path, 'utf8');
  } catch (e) {
    throw e instanceof Plain ? e : new Plain(`${path}: cannot be read (${(e as NodeJS.ErrnoException).code ?? e})`);
  }
}

/** Write a text file; a plain error when that cannot be done. */
export function writeText(path: string, text: string): void {
  try {
    writeFileSync(path, text);
  } catch (e) {
    throw new Plain(`${path}: cannot be written (${(e as NodeJS.ErrnoException).code ?? e})`);
  }
}

/** Flags and words of a call; a plain usage error for what the verb does not know. */
export function readArgs<T extends NonNullable<ParseArgsConfig['options']>>(args: string[], options: T) {
  try {
    return parseArgs({ args, options, allowPositionals: true, strict: true });
  } catch (e) {
    throw new Plain((e as Error).message, USAGE);
  }
}

/** A flag's whole number within bounds; a plain usage error otherwise. */
export function wholeNumber(flag: string, text: string, min: number, max: number): number {
  const n = Number(text);
  if (!/^\d+$/.test(text) || n < min || n > max)
    throw new Plain(`--${flag} takes a whole number from ${min} to ${max}, got ${text}`, USAGE);
  return n;
}
