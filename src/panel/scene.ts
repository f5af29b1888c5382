/** The drawn half of the panel: one opaque sheet, a tile a moving piece, shown by Phaser's canvas renderer on demand. */
import * as Phaser from 'phaser';
import type { Sight } from './host.ts';
import type { Op } from './kit/ops.ts';
import { solid } from './kit/ops.ts';
import { paint } from './kit/painter.ts';
import type { Palette } from './kit/palette.ts';
import { rect } from './kit/path.ts';
import type { Moving } from './motion.ts';
import type { Piece } from './tiles.ts';

/** Device pixels of a canvas are kept under this. */
const MOST_PIXELS = 8.3e6;
/** A frame that comes late moves things by at most this. */
const LONGEST_S = 0.05;

/** A sheet of paper in its own units, and how many CSS pixels a unit is. */
export type Format = { w: number; h: number; k: number; dpr: number };

type Tile = {
  piece: Piece<unknown>;
  canvas: HTMLCanvasElement;
  ctx: CanvasRenderingContext2D;
  texture: Phaser.Textures.Texture;
  x0: number;
  y0: number;
  key: string;
  to: unknown;
  moving: Moving<unknown> | null;
};

/** The drawing. */
export class Scene {
  private readonly game: Phaser.Game;
  private stage: Phaser.Scene | undefined;
  private tiles: Tile[] = [];
  private made: string[] = [];
  private count = 0;
  private frame = 0;
  private last_ms = 0;
  private scale = 1;
  private palette: Palette;
  /** Set by who asks for stillness. */
  still = false;

  private constructor(parent: HTMLElement, format: Format, palette: Palette, ready: () => void) {
    this.palette = palette;
    const { pw, ph } = this.fit(format);
    this.game = new Phaser.Game({
      type: Phaser.CANVAS,
      width: pw,
      height: ph,
      parent,
      banner: false,
      audio: { noAudio: true },
      backgroundColor: palette.hex.paper,
      scale: { mode: Phaser.Scale.NONE, zoom: (format.w * format.k) / pw },
      render: { antialias: true, antialiasGL: false, roundPixels: false },
      input: { windowEvents: false, mouse: false, touch: false, keyboard: false },
      scene: {
        create: function (this: Phaser.Scene) {
          created(this);
        },
      },
    });
    const created = (stage: Phaser.Scene) => {
      this.stage = stage;
      this.game.events.once('poststep', () => {
        this.game.loop.sleep();
        ready();
      });
    };
  }

  /** A drawing in `parent`, asleep. */
  static open(parent: HTMLElement, format: Format, palette: Palette): Promise<Scene> {
    return new Promise((resolve) => {
      const scene: Scene = new Scene(parent, format, palette, () => resolve(scene));
    });
  }

  get canvas(): HTMLCanvasElement {
    return this.game.canvas;
  }

  private fit({ w, h, k, dpr }: Format): { pw: number; ph: number } {
    const most = Math.sqrt(MOST_PIXELS / (w * h));
    this.scale = Math.min(k * dpr, most);
    return { pw: Math.round(w * this.scale), ph: Math.round(h * this.scale) };
  }

  /** Lays out another place, or the same on another format or in other inks. */
  show(pieces: readonly Piece[], sight: Sight, format: Format, palette: Palette): void {
    const stage = this.stage!;
    this.palette = palette;
    const { pw, ph } = this.fit(format);
    this.game.scale.setZoom((format.w * format.k) / pw);
    this.game.scale.resize(pw, ph);
    // At a zoom of 1 Phaser leaves the size of the last place on the element.
    Object.assign(this.canvas.style, { width: `${format.w * format.k}px`, height: `${format.h * format.k}px` });
    stage.children.removeAll();
    for (const key of this.made) stage.textures.remove(key);
    this.made = [];
    this.sheet(
      pieces.flatMap((p) => p.fixed),
      pw,
      ph,
      format,
    );
    this.tiles = pieces.flatMap((p) => (p.box ? [this.tile(p)] : []));
    for (const t of this.tiles) this.settle(t, sight);
    this.draw();
  }

  private texture(canvas: HTMLCanvasElement, x: number, y: number): Phaser.Textures.Texture {
    const stage = this.stage!;
    const key = `k${++this.count}`;
    const texture = stage.textures.create(key, canvas as never, canvas.width, canvas.height)!;
    texture.add('__BASE', 0, 0, 0, canvas.width, canvas.height);
    stage.add.image(x, y, key).setOrigin(0, 0);
    this.made.push(key);
    return texture;
  }

  private sheet(ops: readonly Op[], pw: number, ph: number, { w, h }: Format): void {
    const canvas = document.createElement('canvas');
    canvas.width = pw;
    canvas.height = ph;
    const ctx = canvas.getContext('2d', { alpha: false })!;
    const { palette, scale } = this;
    paint(ctx, [solid(rect(-1, -1, w + 2, h + 2), 'paper'), ...ops], { palette, scale });
    this.texture(canvas, 0, 0);
  }

  private tile(piece: Piece<unknown>): Tile {
    const { left, top, right, bottom } = piece.box!;
    const s = this.scale;
    const [x0, y0] = [Math.floor(left * s), Math.floor(top * s)];
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.ceil(right * s) - x0);
    canvas.height = Math.max(1, Math.ceil(bottom * s) - y0);
    const texture = this.texture(canvas, x0, y0);
    return { piece, canvas, ctx: canvas.getContext('2d')!, texture, x0, y0, key: '', to: undefined, moving: null };
  }

  /** Inks a tile as it stands, without motion. */
  private settle(t: Tile, sight: Sight): void {
    t.to = t.piece.look(sight);
    t.key = JSON.stringify(t.to);
    t.moving = null;
    this.ink(t, t.to);
  }

  private ink(t: Tile, value: unknown): void {
    t.ctx.clearRect(0, 0, t.canvas.width, t.canvas.height);
    paint(t.ctx, t.piece.ink(value), { palette: this.palette, scale: this.scale, x0: t.x0, y0: t.y0 });
    t.texture.source[0]!.update();
  }

  /** Looks at everything again; what has changed is inked or set in motion. */
  look(sight: Sight): void {
    let changed = false;
    for (const t of this.tiles) {
      const to = t.piece.look(sight);
      const key = JSON.stringify(to);
      if (key === t.key) continue;
      const from = t.moving?.at ?? t.to;
      t.key = key;
      t.to = to;
      changed = true;
      if (t.piece.motion && !this.still) t.moving = { at: from, speed: t.moving?.speed ?? 0 };
      else this.ink(t, to);
    }
    if (!changed || this.frame) return;
    this.last_ms = performance.now() - 16;
    this.step();
  }

  /** Whether anything is still under way. */
  get moving(): boolean {
    return this.tiles.some((t) => t.moving !== null);
  }

  private step(): void {
    this.frame = 0;
    const now = performance.now();
    const dt_s = Math.min(LONGEST_S, Math.max(0.001, (now - this.last_ms) / 1000));
    this.last_ms = now;
    for (const t of this.tiles) {
      if (!t.moving) continue;
      t.moving = this.still ? null : t.piece.motion!(t.moving, t.to, dt_s);
      this.ink(t, t.moving ? t.moving.at : t.to);
    }
    this.draw();
    if (this.moving && !this.frame) this.frame = requestAnimationFrame(() => this.step());
  }

  private draw(): void {
    this.game.loop.step(performance.now());
  }

  /** Takes the drawing down. */
  close(): void {
    cancelAnimationFrame(this.frame);
    this.tiles = [];
    this.game.destroy(true);
    this.game.loop.wake();
  }
}
