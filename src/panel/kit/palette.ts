/** A colour by its job. Faces know these names only; a palette gives them their hex. */
export type Ink = 'paper' | 'sheet' | 'g1' | 'g2' | 'g3' | 'ink' | 'ink2' | 'persimmon' | 'sea' | 'cut' | 'onCut';

/** All tokens, in the order of the table above. */
export const INKS: readonly Ink[] = [
  'paper',
  'sheet',
  'g1',
  'g2',
  'g3',
  'ink',
  'ink2',
  'persimmon',
  'sea',
  'cut',
  'onCut',
];

/** A set of inks, and the two numbers that differ with it. */
export interface Palette {
  readonly name: string;
  readonly hex: Readonly<Record<Ink, string>>;
  /** Whether cast shadows are drawn. A hatch that carries a meaning (dark lamp, stop zone) is always drawn. */
  readonly shade: boolean;
  /** Every line weight is multiplied by this. */
  readonly weight: number;
}

/** Warm paper, the first edition. */
export const PAPER: Palette = {
  name: 'paper',
  hex: {
    paper: '#F4EAD6',
    sheet: '#FCF6E8',
    g1: '#E9DDC5',
    g2: '#D6C7AB',
    g3: '#A99A7F',
    ink: '#17305C',
    ink2: '#45587D',
    persimmon: '#D2481A',
    sea: '#0B7562',
    cut: '#17305C',
    onCut: '#FCF6E8',
  },
  shade: true,
  weight: 1,
};

/** By the light of a red-shaded lamp; large solids have an ink of their own so that they do not glare. */
export const NIGHT: Palette = {
  name: 'night lamp',
  hex: {
    paper: '#191817',
    sheet: '#24221F',
    g1: '#2E2B26',
    g2: '#3D3831',
    g3: '#6B6252',
    ink: '#EAD9B6',
    ink2: '#BCAC8B',
    persimmon: '#FF8148',
    sea: '#3FB79C',
    cut: '#5A5140',
    onCut: '#F6EBD0',
  },
  shade: true,
  weight: 1,
};

/** Black on white, no cast shadows, lines 40 per cent heavier. */
export const CONTRAST: Palette = {
  name: 'high contrast',
  hex: {
    paper: '#FFFFFF',
    sheet: '#FFFFFF',
    g1: '#F1F2F5',
    g2: '#D9DCE4',
    g3: '#A3A9B8',
    ink: '#061433',
    ink2: '#1F2E52',
    persimmon: '#B02E00',
    sea: '#005A49',
    cut: '#061433',
    onCut: '#FFFFFF',
  },
  shade: false,
  weight: 1.4,
};

/** The three editions. */
export const PALETTES: readonly Palette[] = [PAPER, NIGHT, CONTRAST];

const channel = (v: number): number => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);

/** Relative luminance of #RRGGBB, 0 to 1 (WCAG 2.2, definition of relative luminance). */
export function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => channel(Number.parseInt(hex.slice(i, i + 2), 16) / 255));
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

/** Contrast ratio of two #RRGGBB, 1 to 21 (WCAG 2.2, definition of contrast ratio). */
export function contrast(a: string, b: string): number {
  const [la, lb] = [luminance(a), luminance(b)];
  return (Math.max(la, lb) + 0.05) / (Math.min(la, lb) + 0.05);
}
