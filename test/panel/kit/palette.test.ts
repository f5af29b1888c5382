import { describe, expect, it } from 'vitest';
import {
  CONTRAST,
  contrast,
  INKS,
  type Ink,
  NIGHT,
  PALETTES,
  PAPER,
  type Palette,
} from '../../../src/panel/kit/palette.ts';

const of = (p: Palette, a: Ink, b: Ink): number => contrast(p.hex[a], p.hex[b]);

describe('contrast', () => {
  // WCAG 2.2: black on white is 21; #767676 on white is the lightest grey that passes 4.5 (4.54, W3C technique G18's worked limit).
  it('gives the published figures', () => {
    expect(contrast('#000000', '#FFFFFF')).toBeCloseTo(21, 6);
    expect(contrast('#767676', '#FFFFFF')).toBeCloseTo(4.54, 2);
    expect(contrast('#777777', '#FFFFFF')).toBeLessThan(4.5);
  });
});

describe('palettes', () => {
  it.each<[Ink, Ink, number]>([
    ['ink', 'paper', 10.9],
    ['ink', 'sheet', 12.1],
    ['ink', 'g1', 9.7],
    ['ink2', 'paper', 6.0],
    ['ink2', 'sheet', 6.6],
    ['ink2', 'g1', 5.3],
    ['persimmon', 'paper', 3.8],
    ['persimmon', 'sheet', 4.2],
    ['sea', 'paper', 4.7],
    ['sea', 'sheet', 5.2],
  ])('paper edition: %s on %s is about %f, as the design measured', (a, b, ratio) => {
    expect(of(PAPER, a, b)).toBeGreaterThan(ratio - 0.06);
    expect(of(PAPER, a, b)).toBeLessThan(ratio + 0.06);
  });

  it.each<[Palette, Ink, number]>([
    [NIGHT, 'ink', 12.7],
    [NIGHT, 'ink2', 7.9],
    [NIGHT, 'persimmon', 7.2],
    [NIGHT, 'sea', 7.1],
    [CONTRAST, 'ink', 18.2],
    [CONTRAST, 'ink2', 13.4],
    [CONTRAST, 'persimmon', 6.5],
    [CONTRAST, 'sea', 8.2],
  ])('$name: $1 on paper or sheet is near $2', (p, ink, ratio) => {
    const both = [of(p, ink, 'paper'), of(p, ink, 'sheet')];
    expect(Math.min(...both.map((v) => Math.abs(v - ratio)))).toBeLessThan(0.15);
  });

  // WCAG 2.2 criteria 1.4.3 (text 4.5) and 1.4.11 (graphics 3).
  it.each(PALETTES)('$name: every text pair passes 4.5 and every signal ink 3', (p) => {
    for (const bed of ['paper', 'sheet', 'g1'] as const)
      for (const ink of ['ink', 'ink2'] as const) expect(of(p, ink, bed)).toBeGreaterThanOrEqual(4.5);
    expect(of(p, 'onCut', 'cut')).toBeGreaterThanOrEqual(4.5);
    for (const ink of ['persimmon', 'sea'] as const)
      for (const bed of ['paper', 'sheet', 'g1'] as const) expect(of(p, ink, bed)).toBeGreaterThanOrEqual(3);
  });

  it.each(PALETTES)('$name names every token as #RRGGBB', (p) => {
    for (const ink of INKS) expect(p.hex[ink]).toMatch(/^#[0-9A-F]{6}$/);
  });
});
