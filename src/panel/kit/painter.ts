import { isText } from './bounds.ts';
import { type Matrix, type Op, type PathOp, type TextOp, times } from './ops.ts';
import type { Palette } from './palette.ts';

/** Where and how to paint. */
export interface Press {
  palette: Palette;
  /** Device pixels a sheet unit. */
  scale: number;
  /** Device pixel of the sheet at which this canvas begins; whole numbers. */
  x0?: number;
  y0?: number;
}

/** The four faces that must be loaded before any paint: `Promise.all(FONTS.map(f => document.fonts.load(f)))`. */
export const FONTS = ['400 14px B612', '700 14px B612', '400 14px "B612 Mono"', '700 14px "B612 Mono"'] as const;

const HATCH_PITCH = 3.6;
const HATCH_OPACITY = 0.5;
const tiles = new Map<string, HTMLCanvasElement>();

/** A square of 45 degree strokes whose side is a whole number of device pixels, so that it joins without a beat. */
function hatchTile(hex: string, scale: number): HTMLCanvasElement {
  const key = `${hex} ${scale}`;
  const made = tiles.get(key);
  if (made) return made;
  const side = Math.max(2, Math.round(HATCH_PITCH * scale * Math.SQRT2));
  const tile = document.createElement('canvas');
  tile.width = tile.height = side;
  const ctx = tile.getContext('2d')!;
  ctx.strokeStyle = hex;
  ctx.lineWidth = 1.2 * scale;
  for (const k of [-1, 0, 1]) {
    ctx.moveTo(k * side - 1, side + 1);
    ctx.lineTo((k + 1) * side + 1, -1);
  }
  ctx.stroke();
  if (tiles.size > 24) tiles.clear();
  tiles.set(key, tile);
  return tile;
}

/** Moves every point of a path to the middle or the edge of device pixels, as the stroke's whole width asks. */
export function snapPath(d: string, offset: readonly [number, number], scale: number, odd: boolean): string {
  let i = 0;
  return d.replace(/-?\d+(\.\d+)?/g, (n) => {
    const shift = offset[i++ & 1]!;
    const dev = (Number(n) + shift) * scale;
    return String((odd ? Math.floor(dev) + 0.5 : Math.round(dev)) / scale - shift);
  });
}

const upright = (m: Matrix): boolean => m[0] === 1 && m[1] === 0 && m[2] === 0 && m[3] === 1;

class Hand {
  private readonly stack: Matrix[] = [[1, 0, 0, 1, 0, 0]];
  private readonly x0: number;
  private readonly y0: number;

  constructor(
    private readonly ctx: CanvasRenderingContext2D,
    private readonly press: Press,
  ) {
    this.x0 = press.x0 ?? 0;
    this.y0 = press.y0 ?? 0;
  }

  private get m(): Matrix {
    return this.stack[this.stack.length - 1]!;
  }

  private device(): DOMMatrix2DInit {
    const s = this.press.scale;
    const [a, b, c, d, e, f] = times([s, 0, 0, s, -this.x0, -this.y0], this.m);
    return { a, b, c, d, e, f };
  }

  aim(): void {
    this.ctx.setTransform(this.device());
  }

  push(op: { matrix?: Matrix; clip?: string }): void {
    this.ctx.save();
    this.stack.push(op.matrix ? times(this.m, op.matrix) : this.m);
    this.aim();
    if (op.clip) this.ctx.clip(new Path2D(op.clip));
  }

  pop(): void {
    this.stack.pop();
    this.ctx.restore();
  }

  path(op: PathOp): void {
    const { ctx, press } = this;
    const { hex, weight, shade } = press.palette;
    if (op.fill === 'shade' && !shade) return;
    let w = (op.w ?? 1) * weight;
    let d = op.d;
    if (op.snap && upright(this.m)) {
      const whole = op.stroke ? Math.max(1, Math.round(w * press.scale)) : 0;
      if (whole) w = whole / press.scale;
      d = snapPath(d, [this.m[4], this.m[5]], press.scale, (whole & 1) === 1);
    }
    const path = new Path2D(d);
    ctx.globalAlpha = op.o ?? 1;
    if (op.fill === 'shade' || op.fill === 'hatch') this.hatch(path, op.o ?? 1);
    else if (op.fill) {
      ctx.fillStyle = hex[op.fill];
      ctx.fill(path);
    }
    if (!op.stroke) return;
    ctx.strokeStyle = hex[op.stroke];
    ctx.lineWidth = w;
    ctx.lineCap = op.cap ?? 'butt';
    ctx.lineJoin = op.join ?? 'round';
    ctx.setLineDash(op.dash ? [...op.dash] : []);
    ctx.stroke(path);
  }

  private hatch(path: Path2D, o: number): void {
    const { ctx, press } = this;
    const pattern = ctx.createPattern(hatchTile(press.palette.hex.ink, press.scale), 'repeat')!;
    pattern.setTransform(new DOMMatrix([1, 0, 0, 1, -this.x0, -this.y0]));
    const placed = new Path2D();
    placed.addPath(path, this.device());
    ctx.setTransform(1, 0, 0, 1, 0, 0);
    ctx.globalAlpha = o * HATCH_OPACITY;
    ctx.fillStyle = pattern;
    ctx.fill(placed);
    ctx.globalAlpha = o;
    this.aim();
  }

  text(op: TextOp): void {
    const { ctx, press } = this;
    const s = press.scale;
    ctx.globalAlpha = op.o ?? 1;
    ctx.fillStyle = press.palette.hex[op.fill];
    ctx.font = `${op.bold ? 700 : 400} ${op.size}px ${op.mono ? '"B612 Mono"' : 'B612'}, sans-serif`;
    ctx.textAlign = op.anchor === 'middle' ? 'center' : op.anchor === 'end' ? 'right' : 'left';
    ctx.textBaseline = 'alphabetic';
    const y = upright(this.m) ? Math.round((op.y + this.m[5]) * s) / s - this.m[5] : op.y;
    ctx.fillText(op.text, op.x, y);
  }
}

/** Paints ops on a canvas whose own pixels are device pixels. Leaves the context as it was found. */
export function paint(ctx: CanvasRenderingContext2D, ops: readonly Op[], press: Press): void {
  const hand = new Hand(ctx, press);
  ctx.save();
  hand.aim();
  for (const op of ops) {
    if ('push' in op) hand.push(op.push);
    else if ('pop' in op) hand.pop();
    else if (isText(op)) hand.text(op);
    else hand.path(op);
  }
  ctx.restore();
}
