/**
 * WAV files (RIFF/WAVE, Microsoft and IBM 1991) from bytes. The libraries for it that were looked at neither say where a
 * file is broken nor read a truncated one as far as it goes, so the format is read here.
 */
import type { Recording } from './recording.ts';

/** A recording, or the byte that is at fault and what was expected there. */
export type WavRead = { ok: true; recording: Recording } | { ok: false; at: number; expected: string };

const RATES = { min: 2000, max: 384_000 };
/** Samples are held within this; a float file may hold anything. */
const LOUDEST = 1e6;

type Format = { channels: number; rate: number; bits: number; isFloat: boolean };
type Data = Format & { from: number; length: number };
type Wrong = { ok: false; at: number; expected: string };

const wrong = (at: number, expected: string): Wrong => ({ ok: false, at, expected });

function wordAt(bytes: DataView, at: number): string {
  let word = '';
  for (let i = at; i < Math.min(at + 4, bytes.byteLength); i++) word += String.fromCharCode(bytes.getUint8(i));
  return word;
}

function readFormat(bytes: DataView, at: number, size: number): Format | Wrong {
  if (at + 24 > bytes.byteLength || size < 16) return wrong(at, 'a whole fmt chunk');
  const tag = bytes.getUint16(at + 8, true);
  // An extensible format keeps its real tag at the head of a GUID.
  const kind = tag === 0xfffe && at + 34 <= bytes.byteLength ? bytes.getUint16(at + 32, true) : tag;
  if (kind !== 1 && kind !== 3) return wrong(at + 8, `PCM or float samples, found format ${kind}`);
  const isFloat = kind === 3;
  const channels = bytes.getUint16(at + 10, true);
  const rate = bytes.getUint32(at + 12, true);
  const bits = bytes.getUint16(at + 22, true);
  if (channels < 1 || channels > 16) return wrong(at + 10, `1 to 16 channels, found ${channels}`);
  if (rate < RATES.min || rate > RATES.max)
    return wrong(at + 12, `${RATES.min} to ${RATES.max} samples a second, found ${rate}`);
  if (!(isFloat ? [32, 64] : [8, 16, 24, 32]).includes(bits))
    return wrong(at + 22, `8, 16, 24 or 32 bits (float 32 or 64), found ${bits}`);
  return { channels, rate, bits, isFloat };
}

/** Finds format and data; a data chunk that is cut off is as long as the file. */
function find(bytes: DataView): Data | Wrong {
  if (wordAt(bytes, 0) !== 'RIFF' || wordAt(bytes, 8) !== 'WAVE')
    return wrong(0, 'a RIFF/WAVE header: this is no WAV file');
  let format: Format | undefined;
  const { byteLength } = bytes;
  for (let at = 12; at + 8 <= byteLength; ) {
    const id = wordAt(bytes, at);
    const size = bytes.getUint32(at + 4, true);
    if (id === 'fmt ') {
      const read = readFormat(bytes, at, size);
      if ('ok' in read) return read;
      format = read;
    } else if (id === 'data') {
      if (!format) return wrong(at, 'a fmt chunk before the data');
      return { ...format, from: at + 8, length: Math.min(size, byteLength - at - 8) };
    }
    at += 8 + size + (size % 2);
  }
  return wrong(byteLength, format ? 'a data chunk' : 'a fmt chunk');
}

function sampleAt(bytes: DataView, at: number, { bits, isFloat }: Format): number {
  if (isFloat) return bits === 32 ? bytes.getFloat32(at, true) : bytes.getFloat64(at, true);
  if (bits === 8) return (bytes.getUint8(at) - 128) / 128;
  if (bits === 16) return bytes.getInt16(at, true) / 32_768;
  if (bits === 32) return bytes.getInt32(at, true) / 2_147_483_648;
  return (bytes.getUint16(at, true) + bytes.getInt8(at + 2) * 65_536) / 8_388_608;
}

/** Read a WAV file; channels are averaged. */
export function readWav(file: Uint8Array): WavRead {
  const bytes = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const f = find(bytes);
  if ('ok' in f) return f;
  const width = f.bits / 8;
  const frame = f.channels * width;
  const count = Math.floor(f.length / frame);
  if (count === 0) return wrong(f.from, 'at least one sample');
  const samples = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let sum = 0;
    for (let c = 0; c < f.channels; c++) sum += sampleAt(bytes, f.from + i * frame + c * width, f);
    const x = sum / f.channels;
    if (!Number.isFinite(x)) return wrong(f.from + i * frame, 'a finite sample');
    samples[i] = Math.max(-LOUDEST, Math.min(LOUDEST, x));
  }
  return { ok: true, recording: { samples, rate: f.rate } };
}
