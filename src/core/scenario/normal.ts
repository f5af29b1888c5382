/** Checked plain data to a scenario: what was left out gets its plain meaning. */
import type { Json } from '../signals.ts';
import type { Action, Card, Scenario } from './scenario.ts';

type Bag = { [key: string]: Json };
const bags = (x: Json | undefined): Bag[] => (Array.isArray(x) ? (x as Bag[]) : []);

function actionOf(raw: Bag): Action {
  const inner = 'do' in raw ? { do: bags(raw['do']).map(actionOf) } : {};
  if ('hold' in raw) {
    const hold = raw['hold'] as Bag;
    return { hold: { ...hold, do: bags(hold['do']).map(actionOf) } } as unknown as Action;
  }
  if ('press' in raw) return { press: [raw['press']].flat() as string[] };
  if ('when' in raw) return { ...raw, ...inner, else: bags(raw['else']).map(actionOf) } as unknown as Action;
  return { ...raw, ...inner } as unknown as Action;
}

/** The scenario in checked data, with the seed's values and a way to fill the card. */
export function normal(
  raw: Bag,
  drawn: Record<string, Json>,
  cells: (card: Omit<Card, 'cells'>) => string[][],
): Scenario {
  const { draws: _, ...rest } = raw;
  const own = raw['own'] as Bag;
  const papers = raw['papers'] as Bag;
  const card = papers['card'] as unknown as Omit<Card, 'cells'> | undefined;
  return {
    ...rest,
    drawn,
    own: { call: own['call'], controls: own['controls'] ?? {}, inner: own['inner'] ?? {} },
    papers: {
      frequencies: papers['frequencies'] ?? [],
      calls: papers['calls'] ?? [],
      card: card ? { ...card, cells: cells(card) } : null,
      messages: papers['messages'] ?? [],
    },
    happenings: raw['happenings'] ?? [],
    measures: bags(raw['measures']).map((m) => ({ ...m, critical: m['critical'] ?? false })),
    steps: bags(raw['steps']).map((s) => ({ ...s, do: bags(s['do']).map(actionOf) })),
  } as unknown as Scenario;
}
