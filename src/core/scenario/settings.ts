/** Values of controls as a scenario writes them. */
import type { Json } from '../signals.ts';
import type { ControlRange } from './scenario.ts';

type Bag = { [key: string]: Json };
const isBag = (x: Json | undefined): x is Bag => typeof x === 'object' && x !== null && !Array.isArray(x);

/** What was expected when a value does not fit the control; undefined when it does. */
export function misfitOf(range: ControlRange, value: Json): string | undefined {
  switch (range.kind) {
    case 'words':
      return typeof value === 'string' && range.words.includes(value)
        ? undefined
        : `one of ${range.words.join(', ')} (in quotes where YAML would make a number of it)`;
    case 'number':
      return typeof value === 'number' && value >= range.min && value <= range.max
        ? undefined
        : `a number from ${range.min} to ${range.max} ${range.unit}`.trim();
    case 'text':
      return typeof value === 'string' && value.length <= range.max && (range.only?.test(value) ?? true)
        ? undefined
        : `a text of at most ${range.max} characters, ${range.allowed}`;
    case 'switch':
      return typeof value === 'boolean' ? undefined : `one of ${range.words.join(', ')}, true, false`;
    default:
      return typeof value === 'boolean' ? undefined : 'true or false';
  }
}

/** A switch's own words become false and true; a number or flag written for a position by word becomes the word. */
function settled(range: ControlRange | undefined, value: Json): Json {
  if (range?.kind === 'switch' && typeof value === 'string' && range.words.includes(value))
    return value === range.words[1];
  return value;
}

type Ranges = ReadonlyMap<string, ControlRange>;

const settledAll = (bag: Bag, ranges: Ranges): Bag =>
  Object.fromEntries(Object.entries(bag).map(([full, v]) => [full, settled(ranges.get(full), v)]));

function settledTest(bag: Bag, range: ControlRange | undefined, keys: readonly string[]): Bag {
  return Object.fromEntries(
    Object.entries(bag).map(([key, v]) => [
      key,
      !keys.includes(key) ? v : isBag(v) ? settledTest(v, range, ['is', 'not']) : settled(range, v),
    ]),
  );
}

/** Plain data in which, wherever a control is set or compared, a switch's own words are false and true. */
export function settleWords(data: Json, ranges: Ranges): Json {
  if (Array.isArray(data)) return data.map((one) => settleWords(one, ranges));
  if (!isBag(data)) return data;
  const { standing, control } = data;
  if (typeof standing === 'string') return settledTest(data, ranges.get(standing), ['is', 'not']);
  if (typeof control === 'string' && 'value' in data) return settledTest(data, ranges.get(control), ['value']);
  return Object.fromEntries(
    Object.entries(data).map(([key, v]) => [
      key,
      (key === 'controls' || key === 'set') && isBag(v) ? settledAll(v, ranges) : settleWords(v, ranges),
    ]),
  );
}
