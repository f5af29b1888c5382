/** The reach chart as a paper on the desk: opens over it, is reckoned hour by hour, and follows the clock. */
import './reach-paper.css';
import { ladder_MHz, ReachWork } from '../../core/drill.ts';
import { el, mark, tell } from '../controls/dom.ts';
import type { PanelDrill } from '../host.ts';
import { paint } from '../kit/painter.ts';
import type { Palette } from '../kit/palette.ts';
import { bestOf, reachChartOps } from '../reach-chart.ts';

const FREQUENCIES = ladder_MHz(1.8, 17, 30);
/** A slice of reckoning, ms, so that the station never waits for the paper. */
const SLICE_MS = 12;
const WIDE = { w: 1212, h: 424 };
const NARROW = { w: 370, h: 420 };
/** A phone on its side. */
const LOW = { w: 760, h: 270 };
const QUARTER = 4;

/** Where it lies and in what inks. */
export type Look = { palette(): Palette; isNarrow: boolean };

/** The paper. */
export class ReachPaper {
  readonly el: HTMLElement;
  /** What opens it. */
  readonly button: HTMLButtonElement;
  private readonly canvas = el('canvas', { role: 'img', 'aria-label': 'Reach chart' });
  private readonly said = el('p', { class: 'quiet', role: 'status' });
  private readonly select: HTMLSelectElement;
  private readonly works = new Map<number, ReachWork>();
  private chosen = 0;
  private timer = 0;
  private quarter = -1;

  constructor(
    private readonly drill: PanelDrill,
    private readonly look: Look,
  ) {
    const circuits = drill.circuits();
    this.select = el(
      'select',
      { class: 'tile', 'aria-label': 'To' },
      ...circuits.map((c, i) =>
        el(
          'option',
          { value: String(i) },
          c.call ? `${c.call} ${c.place}, ${c.km} km` : `anyone ${c.km} km off, average ground`,
        ),
      ),
    );
    this.select.addEventListener('change', () => {
      this.chosen = Number(this.select.value);
      this.reckon();
    });
    const shut = el('button', { type: 'button', class: 'tile' }, 'Close');
    shut.addEventListener('click', () => this.open(false));
    this.el = el(
      'section',
      { class: `paper reach${look.isNarrow ? ' reach--narrow' : ''}`, 'aria-label': 'Reach chart' },
      el('div', { class: 'reach__head' }, el('h2', {}, 'Reach chart'), this.select, shut),
      this.canvas,
      this.said,
      el(
        'p',
        { class: 'quiet' },
        'The deeper the tint, the surer is 50 Bd print, on so many days in a hundred, one letter in a hundred wrong allowed. Curves: decibels to spare. MUF: the highest frequency that the sky bends back. 120 W into a 5.2 m whip at either end; thunderstorms not counted.',
      ),
    );
    this.el.addEventListener('keydown', (e) => {
      if (e.key !== 'Escape') return;
      e.stopPropagation();
      this.open(false);
    });
    this.el.hidden = true;
    this.button = el('button', { type: 'button', class: 'tile', 'aria-expanded': 'false' }, 'Reach chart');
    this.button.addEventListener('click', () => this.open(this.el.hidden === true));
  }

  /** Lays it on the desk or takes it away. */
  open(on: boolean): void {
    this.el.hidden = !on;
    mark(this.button, 'aria-expanded', on ? 'true' : 'false');
    if (!on) {
      clearTimeout(this.timer);
      this.button.focus({ preventScroll: true });
      return;
    }
    this.reckon();
    this.select.focus({ preventScroll: true });
  }

  private get hour(): number {
    const { utc } = this.drill.scenario.world;
    const [h = 0, m = 0, s = 0] = utc.split(':').map(Number);
    return (h + m / 60 + s / 3600 + this.drill.now_us / 3.6e9) % 24;
  }

  private work(): ReachWork {
    const circuit = this.drill.circuits()[this.chosen]!;
    const work = this.works.get(this.chosen) ?? new ReachWork(circuit, FREQUENCIES);
    this.works.set(this.chosen, work);
    return work;
  }

  private reckon(): void {
    clearTimeout(this.timer);
    const work = this.work();
    const until = performance.now() + SLICE_MS;
    let more = work.step();
    while (more && performance.now() < until) more = work.step();
    this.ink();
    if (more && !this.el.hidden) this.timer = window.setTimeout(() => this.reckon());
  }

  /** Follows the clock while it lies open. */
  update(): void {
    const quarter = Math.floor(this.hour * QUARTER);
    if (this.el.hidden || quarter === this.quarter) return;
    this.ink();
  }

  private ink(): void {
    const { canvas, look } = this;
    const { chart } = this.work();
    const { hour } = this;
    this.quarter = Math.floor(hour * QUARTER);
    const isLow = look.isNarrow && innerWidth > innerHeight;
    const { w, h } = isLow ? LOW : look.isNarrow ? NARROW : WIDE;
    const scale = ((canvas.clientWidth || w) / w) * devicePixelRatio;
    canvas.width = Math.round(w * scale);
    canvas.height = Math.round(h * scale);
    const view = { chart, hour, frequencies: this.drill.scenario.papers.frequencies };
    paint(canvas.getContext('2d')!, reachChartOps({ left: 0, top: 0, right: w, bottom: h }, view), {
      palette: look.palette(),
      scale,
    });
    const done = chart.cells.length === 24;
    const best = bestOf(view);
    tell(this.said, done ? `Now: ${best}.` : `Reckoning, hour ${chart.cells.length} of 24.`);
    mark(canvas, 'aria-label', done ? `Reach chart. ${best}.` : 'Reach chart, being reckoned');
  }
}
