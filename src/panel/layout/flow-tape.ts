/** A tape in a flowing layout: the reader's with its gate, or the stretch last punched. */
import { reader, tapeWidth } from '../faces/tape.ts';
import type { Sight } from '../host.ts';
import { words } from '../kit/ops.ts';
import { facePiece, type Piece, scenery } from '../tiles.ts';
import { printed } from './tape-print.ts';

export type AnyReader = { pieces: Piece[]; h: number };

const PITCH = 12;

/** What lies in the gate, or with what has been punched the last column. */
function shown(full: string, columns: number) {
  return (s: Sight) => {
    const v = s.see(full) as number[] | { codes: number[]; at: number } | null;
    const tape = Array.isArray(v) ? { codes: v, at: Number(s.see('tape.count') ?? 0) } : (v ?? { codes: [], at: 0 });
    if (tape.codes.length === 0) return { codes: [], at: null, live: false };
    const first = Math.max(0, tape.at - columns);
    const upTo = tape.codes.slice(0, tape.at + columns);
    return { codes: upTo.slice(first), at: tape.at - first, live: false, print: printed(upTo).slice(first) };
  };
}

/** A tape across the card. */
export function tapeReader(full: string, name: string, x: number, y: number, w: number): AnyReader {
  const gate = w * (full.endsWith('punched') ? 0.86 : 0.4);
  const spec = { x, y: y + 34, pitch: PITCH, w: w - PITCH, gate, letters: true };
  return {
    pieces: [
      scenery(`${full}/name`, [words(name, x, y - 6, { bold: true })]),
      facePiece(full, reader, spec, shown(full, Math.ceil(w / PITCH))),
    ],
    h: tapeWidth(PITCH) + 72,
  };
}
