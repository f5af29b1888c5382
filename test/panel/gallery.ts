// A page for the eye: every face in every state, in the palettes, by the painter that the panel uses.
// ?sheet=NAME&palette=0|1|2 shows one sheet; without them, all sheets on paper.
import '@fontsource/b612/400.css';
import '@fontsource/b612/700.css';
import '@fontsource/b612-mono/400.css';
import '@fontsource/b612-mono/700.css';
import type { Op } from '../../src/panel/kit/ops.ts';
import { FONTS, paint } from '../../src/panel/kit/painter.ts';
import { PALETTES, type Palette } from '../../src/panel/kit/palette.ts';
import { SHEETS } from './gallery-sheets.ts';

const W = 1280;
const H = 720;

function show(ops: readonly Op[], palette: Palette, id: string): void {
  const scale = devicePixelRatio;
  const canvas = document.createElement('canvas');
  canvas.id = id;
  canvas.width = Math.round(W * scale);
  canvas.height = Math.round(H * scale);
  canvas.style.width = `${canvas.width / scale}px`;
  const ctx = canvas.getContext('2d', { alpha: false })!;
  ctx.fillStyle = palette.hex.paper;
  ctx.fillRect(0, 0, canvas.width, canvas.height);
  paint(ctx, ops, { palette, scale });
  document.body.append(canvas);
}

await Promise.all(FONTS.map((f) => document.fonts.load(f)));
const asked = new URLSearchParams(location.search);
const palette = PALETTES[Number(asked.get('palette') ?? 0)]!;
for (const [name, sheet] of Object.entries(SHEETS)) {
  if (asked.has('sheet') && asked.get('sheet') !== name) continue;
  show(sheet(), palette, name);
}
document.body.dataset['ready'] = 'yes';
