/** Files in and out, the same for every verb: what cannot be done is said plainly. */
import { closeSync, fstatSync, openSync, readSync, statSync, writeFileSync } from 'node:fs';
import { Places, showErrors } from '../core/record/places.ts';
import { Plain } from './verb.ts';

/** No text that a verb reads is larger, bytes. */
const MAX_BYTES = 64 * 1024 * 1024;

const CAUSES: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  ENOTDIR: 'there is no such folder',
  EISDIR: 'it is a folder',
  EACCES: 'you may not',
  EPERM: 'you may not',
  EROFS: 'nothing can be written there',
  ENOSPC: 'there is no room left',
};

const cause = (e: unknown): string => {
  const code = (e as NodeJS.ErrnoException).code ?? String(e);
  return CAUSES[code] ?? code;
};

/** Everything from an open file, which need not have a known size; a plain error when it is more than `max` bytes. */
function drain(fd: number, path: string, max: number): Buffer {
  const parts: Buffer[] = [];
  for (let total = 0; ; ) {
    const part = Buffer.alloc(1 << 20);
    const got = readSync(fd, part);
    if (got === 0) return Buffer.concat(parts);
    total += got;
    if (total > max) throw new Plain(`${path}: more than ${max} bytes; expected at most that`);
    parts.push(part.subarray(0, got));
  }
}

/** A file's bytes, at most `max` of them; a plain error when it cannot be read or is larger. */
export function readBytes(path: string, max: number): Buffer {
  try {
    const fd = openSync(path, 'r');
    try {
      return drain(fd, path, max);
    } finally {
      closeSync(fd);
    }
  } catch (e) {
    throw e instanceof Plain ? e : new Plain(`${path}: cannot be read: ${cause(e)}`);
  }
}

/** A text file's contents; a plain error when it cannot be read, is too large or is no text. */
export function readText(path: string): string {
  const bytes = readBytes(path, MAX_BYTES);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const seen = new TextDecoder().decode(bytes);
    throw new Plain(showErrors([new Places(seen, path).error('not-text', seen.indexOf('\ufffd'), 'a text in UTF-8')]));
  }
}

function isStdout(path: string): boolean {
  try {
    const [file, out] = [statSync(path), fstatSync(1)];
    return file.dev === out.dev && file.ino === out.ino;
  } catch {
    return false;
  }
}

/** Write a file and tell of it in a line on standard output, unless it goes there itself; a plain error when that cannot be done. */
export function writeOut(path: string, data: string | Buffer, what: string): void {
  if (isStdout(path)) {
    process.stdout.write(data);
    return;
  }
  try {
    writeFileSync(path, data);
  } catch (e) {
    throw new Plain(`${path}: cannot be written: ${cause(e)}`);
  }
  process.stdout.write(`${path}: ${what}\n`);
}
