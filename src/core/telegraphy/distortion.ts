/** Distortion of a start-stop signal, in the terms of FS-1037C: displacements are measured from each character's own start edge. */
import type { Edge } from './startstop.ts';
import { startsOf, unit_us } from './startstop.ts';

/** What the edges of a stretch of start-stop signal show; every figure in percent of a unit. */
export interface Distortion {
  /** Characters measured. */
  readonly characters: number;
  /** Degree of start-stop distortion: the largest displacement, late or early, never negative. */
  readonly degree: number;
  /** Largest late displacement, 0 or more; largest early one, 0 or less. */
  readonly late: number;
  readonly early: number;
  /** Bias: positive when marks are lengthened (marking), negative when shortened (spacing). */
  readonly bias: number;
  /** End distortion: mean displacement of the ends of marks from the start edge, positive when late. */
  readonly end: number;
}

const mean = (xs: readonly number[]): number => (xs.length === 0 ? 0 : xs.reduce((a, b) => a + b, 0) / xs.length);

// A displacement past half a unit belongs to the next instant, so it cannot be told from one the other way.
function displacement(edge: Edge, start_us: number, unit: number): number {
  const units = (edge.t_us - start_us) / unit;
  return 100 * (units - Math.round(units));
}

/** Measures edges as characters that begin at the first mark-to-space edge from edge `first` on, then at the first 6.5 units or more after the last. */
function measureFrom(edges: readonly Edge[], first: number, unit: number): Distortion {
  let start: number | null = null;
  let characters = 0;
  const toMark: number[] = [];
  const toSpace: number[] = [];
  for (const edge of edges.slice(first)) {
    if (start === null || edge.t_us >= start + 6.5 * unit) {
      if (edge.mark) continue;
      start = edge.t_us;
      characters += 1;
    } else (edge.mark ? toMark : toSpace).push(displacement(edge, start, unit));
  }
  const late = toMark.concat(toSpace).reduce((a, b) => Math.max(a, b), 0);
  const early = toMark.concat(toSpace).reduce((a, b) => Math.min(a, b), 0);
  const end = mean(toSpace);
  return { characters, degree: Math.max(late, -early), late, early, bias: end - mean(toMark), end };
}

/**
 * Measures edges against the standard speed `baud` (so a sender off speed shows gross distortion). A stretch that begins amid
 * a character has edges that would pass for a start: of those that can be the first true one (startsOf) the one is taken that
 * leaves the whole least distorted, as a measuring set falls into step. Where fewer than two characters would be left there
 * is nothing to fall into step with, and the stretch is measured as it stands.
 */
export function measureDistortion(edges: readonly Edge[], baud: number): Distortion {
  const unit = unit_us(baud);
  const [first = 0, ...later] = startsOf(edges, unit);
  return later
    .map((i) => measureFrom(edges, i, unit))
    .filter((d) => d.characters >= 2)
    .reduce((best, d) => (d.degree < best.degree ? d : best), measureFrom(edges, first, unit));
}

/** The same signal with every mark made longer (positive) or shorter (negative) by a part of a unit, in percent: bias put on. */
export function withBias(edges: readonly Edge[], baud: number, bias: number): Edge[] {
  const shift = Math.round((unit_us(baud) * bias) / 100);
  return edges.map((e) => (e.mark ? { t_us: e.t_us - shift, mark: true } : e));
}
