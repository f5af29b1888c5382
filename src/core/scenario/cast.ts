/** The seed decides: a checked source becomes a scenario. */
import { die } from '../kernel/dice.ts';
import type { Json } from '../signals.ts';
import { fill, throwAll, valuesAt } from './draws.ts';
import { normal } from './normal.ts';
import type { Card, Scenario, ScenarioSource } from './scenario.ts';

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** The cells of a recognition card for a seed: two letters each, row by row. */
export function cellsOf(card: Omit<Card, 'cells'>, seed: number): string[][] {
  const letter = (n: number): string => LETTERS[die(seed, `card ${card.name}`, n, LETTERS.length)] as string;
  return Array.from(card.rows, (_, r) =>
    Array.from(card.columns, (_, c) => {
      const n = 2 * (r * card.columns.length + c);
      return letter(n) + letter(n + 1);
    }),
  );
}

/** The scenario of a seed (a whole number from 0 to 2^31 - 1). Throws RangeError for another seed. */
export function castScenario(source: ScenarioSource, seed: number): Scenario {
  if (!Number.isInteger(seed) || seed < 0 || seed > 0x7fffffff) {
    throw new RangeError(`a seed is a whole number from 0 to 2147483647, got ${seed}`);
  }
  const drawn = valuesAt(source.draws, throwAll(source.draws, seed));
  return normal(fill(source.tree, drawn) as { [key: string]: Json }, drawn, (card) => cellsOf(card, seed));
}
