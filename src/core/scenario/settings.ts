/** Values of controls as a scenario writes them. */
import { misfit } from '../record/range.ts';
import type { Json } from '../signals.ts';
import type { ControlRange } from './scenario.ts';

type Bag = { [key: string]: Json };
const isBag = (x: Json | undefined): x is Bag => typeof x === 'object' && x !== null && !Array.isArray(x);

/** What was expected when a value does not fit the control, as a scenario may write it; undefined when it does. */
export function misfitOf(range: ControlRange, value: Json): string | undefined {
  const wrong = misfit(range, value);
  if (wrong === undefined) return undefined;
  if (range.kind === 'words') return `${wrong} (in quotes where YAML would make a number of it)`;
  return range.kind === 'switch' ? `one of ${range.words.join(', ')}, ${wrong.replace(' or ', ', ')}` : wrong;
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

/** Keys of a test that hold a value, or a list of them. */
const TESTED = ['is', 'not', 'in'];

function settledTest(bag: Bag, range: ControlRange | undefined, keys: readonly string[]): Bag {
  return Object.fromEntries(
    Object.entries(bag).map(([key, v]) => [
      key,
      !keys.includes(key)
        ? v
        : isBag(v)
          ? settledTest(v, range, TESTED)
          : Array.isArray(v)
            ? v.map((one) => settled(range, one))
            : settled(range, v),
    ]),
  );
}

/** Plain data in which, wherever a control is set or compared, a switch's own words are false and true. */
export function settleWords(data: Json, ranges: Ranges): Json {
  if (Array.isArray(data)) return data.map((one) => settleWords(one, ranges));
  if (!isBag(data)) return data;
  const { standing, did, control } = data;
  const tested = standing ?? did;
  if (typeof tested === 'string') return settledTest(data, ranges.get(tested), TESTED);
  if (typeof control === 'string' && 'value' in data) return settledTest(data, ranges.get(control), ['value']);
  return Object.fromEntries(
    Object.entries(data).map(([key, v]) => [
      key,
      (key === 'controls' || key === 'set') && isBag(v) ? settledAll(v, ranges) : settleWords(v, ranges),
    ]),
  );
}
