/** Recordings as WAV files (RIFF/WAVE, Microsoft and IBM 1991): mono numbers in, mono numbers out. */
import type { Recording } from '../core/samples/recording.ts';
import { readWav } from '../core/samples/wav-bytes.ts';
import { readBytes } from './files.ts';
import { Plain } from './verb.ts';

/** The largest recording read, bytes: half an hour of 96 kHz stereo at 24 bits is more than an exercise needs. */
const MAX_BYTES = 256 * 1024 * 1024;

/** Read a WAV file of at most `max` bytes; channels are averaged. A plain error with the byte that is at fault. */
export function readRecording(path: string, max = MAX_BYTES): Recording {
  const bytes = readBytes(path, max);
  if (bytes.length === 0) throw new Plain(`${path}: byte 0: the file is empty; expected a WAV file`);
  const read = readWav(bytes);
  if (!read.ok) throw new Plain(`${path}: byte ${read.at}: expected ${read.expected}`);
  return read.recording;
}

const HEADER_BYTES = 44;

/** The bytes of a WAV file, 16 bits, mono; samples are held within ±1. */
export function wavBytes({ samples, rate }: Recording): Buffer {
  const bytes = Buffer.alloc(HEADER_BYTES + 2 * samples.length);
  bytes.write('RIFF', 0, 'latin1');
  bytes.writeUInt32LE(bytes.length - 8, 4);
  bytes.write('WAVEfmt ', 8, 'latin1');
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(1, 22);
  bytes.writeUInt32LE(rate, 24);
  bytes.writeUInt32LE(2 * rate, 28);
  bytes.writeUInt16LE(2, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36, 'latin1');
  bytes.writeUInt32LE(2 * samples.length, 40);
  for (const [i, x] of samples.entries())
    bytes.writeInt16LE(Math.round(Math.max(-1, Math.min(1, x)) * 32767), HEADER_BYTES + 2 * i);
  return bytes;
}
