import type { Face, Labelled } from '../kit/face.ts';
import { CAPITAL, MONO } from '../kit/metrics.ts';
import { LINE, type Op, shape, words } from '../kit/ops.ts';
import { rrect } from '../kit/path.ts';

/** A value readout. x, y is its top left. Without a frame it is the value line under a control. */
export interface WindowSpec extends Labelled {
  x: number;
  y: number;
  w: number;
  /** 26 framed, 18 bare. */
  h: number;
  frame?: boolean;
  size?: number;
  anchor?: 'start' | 'middle' | 'end';
  bold?: boolean;
  /** Default ink with a frame, ink2 without. */
  fill?: 'ink' | 'ink2';
}

/** As much of a text as the window holds; dots stand for the rest. */
export function fitted({ w, size = 14 }: Pick<WindowSpec, 'w' | 'size'>, text: string): string {
  const most = Math.floor(w / (MONO * size));
  const all = [...text];
  return all.length > most
    ? `${all
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`
    : text;
}

const liveOps = (spec: WindowSpec, all: string): Op[] => {
  const { x, y, w, h, size = 14, anchor = 'middle', frame = false } = spec;
  const pad = frame ? 8 : 0;
  const tx = anchor === 'middle' ? x + w / 2 : anchor === 'end' ? x + w - pad : x + pad;
  const style = { size, anchor, mono: true, bold: spec.bold ?? false, fill: spec.fill ?? (frame ? 'ink' : 'ink2') };
  const text = fitted(spec, all);
  return text ? [words(text, tx, y + h / 2 + (CAPITAL * size) / 2, style)] : [];
};

/** Value: the text. Longer than the window, it ends in dots: give it room (9.1 a mono letter at 14). */
export const readout: Face<WindowSpec, string> = {
  natural: { w: 96, h: 26 },
  staticOps: ({ x, y, w, h, frame, label }) => [
    ...(frame ? [shape(rrect(x, y, w, h, 5), 'sheet', LINE, 'ink', { snap: true })] : []),
    ...(label ? [words(label, x + w / 2, y - 7, { bold: true, anchor: 'middle' })] : []),
  ],
  liveOps,
  tileBox: ({ x, y, w, h }) => ({ left: x, top: y - 2, right: x + w, bottom: y + h + 2 }),
};
