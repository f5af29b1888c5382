/**
 * Recordings as WAV files (RIFF/WAVE, Microsoft and IBM 1991): mono numbers in, mono numbers out. The libraries for it that
 * were looked at neither say where a file is broken nor read a truncated one as far as it goes, so the format is read here.
 */
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { Plain } from './verb.ts';

/** A recording: samples within ±1, so many a second. */
export type Recording = { samples: Float64Array; rate: number };

/** The largest recording read, bytes: half an hour of 96 kHz stereo at 24 bits is more than an exercise needs. */
const MAX_BYTES = 256 * 1024 * 1024;
const RATES = { min: 2000, max: 384_000 };

function bytesOf(path: string): Buffer {
  try {
    const { size } = statSync(path);
    if (size === 0) throw new Plain(`${path}: byte 0: the file is empty; expected a WAV file`);
    if (size > MAX_BYTES) throw new Plain(`${path}: ${size} bytes; expected at most ${MAX_BYTES}`);
    return readFileSync(path);
  } catch (e) {
    throw e instanceof Plain ? e : new Plain(`${path}: cannot be read (${(e as NodeJS.ErrnoException).code ?? e})`);
  }
}

type Format = { channels: number; rate: number; bits: number; isFloat: boolean; from: number; length: number };

/** Finds format and data, so that a fault has a place and a truncated file is read as far as it goes */
function formatOf(bytes: Buffer, path: string): Format {
  const fail = (at: number, expected: string): never => {
    throw new Plain(`${path}: byte ${at}: expected ${expected}`);
  };
  if (bytes.toString('latin1', 0, 4) !== 'RIFF' || bytes.toString('latin1', 8, 12) !== 'WAVE')
    fail(0, 'a RIFF/WAVE header: this is no WAV file');
  let format: Omit<Format, 'from' | 'length'> | undefined;
  for (let at = 12; at + 8 <= bytes.length; ) {
    const id = bytes.toString('latin1', at, at + 4);
    const size = bytes.readUInt32LE(at + 4);
    if (id === 'fmt ') {
      if (at + 24 > bytes.length || size < 16) fail(at, 'a whole fmt chunk');
      const tag = bytes.readUInt16LE(at + 8);
      // An extensible format keeps its real tag at the head of a GUID.
      const kind = tag === 0xfffe && at + 34 <= bytes.length ? bytes.readUInt16LE(at + 32) : tag;
      if (kind !== 1 && kind !== 3) fail(at + 8, `PCM or float samples, found format ${kind}`);
      format = {
        channels: bytes.readUInt16LE(at + 10),
        rate: bytes.readUInt32LE(at + 12),
        bits: bytes.readUInt16LE(at + 22),
        isFloat: kind === 3,
      };
      if (format.channels < 1 || format.channels > 16) fail(at + 10, `1 to 16 channels, found ${format.channels}`);
      if (format.rate < RATES.min || format.rate > RATES.max)
        fail(at + 12, `${RATES.min} to ${RATES.max} samples a second, found ${format.rate}`);
      if (!(format.isFloat ? [32, 64] : [8, 16, 24, 32]).includes(format.bits))
        fail(at + 22, `8, 16, 24 or 32 bits (float 32 or 64), found ${format.bits}`);
    } else if (id === 'data') {
      if (!format) return fail(at, 'a fmt chunk before the data');
      return { ...format, from: at + 8, length: Math.min(size, bytes.length - at - 8) };
    }
    at += 8 + size + (size % 2);
  }
  return fail(bytes.length, format ? 'a data chunk' : 'a fmt chunk');
}

function sampleAt(bytes: Buffer, at: number, { bits, isFloat }: Format): number {
  if (isFloat) return bits === 32 ? bytes.readFloatLE(at) : bytes.readDoubleLE(at);
  if (bits === 8) return (bytes.readUInt8(at) - 128) / 128;
  return bytes.readIntLE(at, bits / 8) / 2 ** (bits - 1);
}

/** Read a WAV file; channels are averaged. A plain error with the byte that is at fault. */
export function readRecording(path: string): Recording {
  const bytes = bytesOf(path);
  const f = formatOf(bytes, path);
  const frame = (f.channels * f.bits) / 8;
  const count = Math.floor(f.length / frame);
  if (count === 0) throw new Plain(`${path}: byte ${f.from}: expected at least one sample`);
  const samples = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let sum = 0;
    for (let c = 0; c < f.channels; c++) sum += sampleAt(bytes, f.from + i * frame + (c * f.bits) / 8, f);
    const x = sum / f.channels;
    if (!Number.isFinite(x)) throw new Plain(`${path}: byte ${f.from + i * frame}: expected a finite sample`);
    samples[i] = Math.max(-1e6, Math.min(1e6, x));
  }
  return { samples, rate: f.rate };
}

const HEADER_BYTES = 44;

/** Write 16-bit mono; samples are held within ±1. */
export function writeRecording(path: string, { samples, rate }: Recording): void {
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
  try {
    writeFileSync(path, bytes);
  } catch (e) {
    throw new Plain(`${path}: cannot be written (${(e as NodeJS.ErrnoException).code ?? e})`);
  }
}
