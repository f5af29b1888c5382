import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { MONO, shortened, textWidth, wrap } from '../../../src/panel/kit/metrics.ts';

/** Tables of a WOFF 1.0 file (W3C Recommendation, 2012): 44 byte header, 20 byte directory entries, zlib data. */
function tables(file: string): Map<string, Buffer> {
  const woff = readFileSync(file);
  const out = new Map<string, Buffer>();
  for (let i = 0; i < woff.readUInt16BE(12); i++) {
    const at = 44 + 20 * i;
    const [offset, packed, whole] = [4, 8, 12].map((d) => woff.readUInt32BE(at + d)) as [number, number, number];
    const raw = woff.subarray(offset, offset + packed);
    out.set(woff.toString('latin1', at, at + 4), packed < whole ? inflateSync(raw) : raw);
  }
  return out;
}

/** Advance of an ASCII letter in em, from cmap format 4 and hmtx (OpenType 1.9). */
function advances(file: string): (c: string) => number {
  const t = tables(file);
  const [cmap, hmtx] = [t.get('cmap')!, t.get('hmtx')!];
  const em = t.get('head')!.readUInt16BE(18);
  const long = t.get('hhea')!.readUInt16BE(34);
  let sub = 0;
  for (let i = 0; i < cmap.readUInt16BE(2); i++) {
    const at = cmap.readUInt32BE(4 + 8 * i + 4);
    if (cmap.readUInt16BE(at) === 4) sub = at;
  }
  const n = cmap.readUInt16BE(sub + 6) / 2;
  return (c) => {
    const code = c.codePointAt(0)!;
    for (let i = 0; i < n; i++) {
      if (code > cmap.readUInt16BE(sub + 14 + 2 * i)) continue;
      const first = cmap.readUInt16BE(sub + 16 + 2 * n + 2 * i);
      const delta = cmap.readUInt16BE(sub + 16 + 4 * n + 2 * i);
      const place = sub + 16 + 6 * n + 2 * i;
      const range = cmap.readUInt16BE(place);
      const glyph = range ? cmap.readUInt16BE(place + range + 2 * (code - first)) + delta : code + delta;
      return hmtx.readUInt16BE(4 * Math.min(glyph & 0xffff, long - 1)) / em;
    }
    return Number.NaN;
  };
}

const ASCII = Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i));
const file = (name: string, weight: number): string =>
  `node_modules/@fontsource/${name}/files/${name}-latin-${weight}-normal.woff`;

describe('text metrics', () => {
  it.each([400, 700])('agree with the font file, B612 %i', (weight) => {
    const of = advances(file('b612', weight));
    for (const c of ASCII) expect([c, textWidth(c, 1)]).toEqual([c, expect.closeTo(of(c), 2)]);
  });

  it.each([400, 700])('agree with the font file, B612 Mono %i', (weight) => {
    const of = advances(file('b612-mono', weight));
    for (const c of ASCII) expect(of(c)).toBeCloseTo(MONO, 2);
  });

  it('break lines at words and keep every word', () => {
    const text = 'Send NR 14 by tape to Tern Ness before 14 20. Log each turn.';
    const lines = wrap(text, 168, 14);
    expect(lines.join(' ')).toBe(text);
    for (const l of lines) expect(textWidth(l, 14)).toBeLessThanOrEqual(168);
  });

  it.each([
    ['BOTH WAYS QV7K', 14, 'BOTH WAYS QV7K'],
    ['BOTH WAYS QV7K', 13, 'BOTH WAYS …'],
    ['BOTH WAYS QV7K', 11, 'BOTH WAYS …'],
    ['BOTH WAYS QV7K', 10, 'BOTH …'],
    ['RECOGNITION', 8, 'RECOGNI…'],
  ])('shorten %s to %i characters, with dots', (text, most, short) => {
    expect(shortened(text, most)).toBe(short);
    expect(short.length).toBeLessThanOrEqual(most);
  });
});
