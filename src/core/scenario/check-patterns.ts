/** Names and values in patterns of record lines and in measures: they come from elsewhere, and are known by their keys. */
import { EMISSIONS, type Json } from '../signals.ts';
import type { Findings, Path } from './findings.ts';
import { type Comparable, controlTakes, isTest, shownTakes } from './takes.ts';

type Bag = { readonly [key: string]: Json };
const isBag = (x: Json | undefined): x is Bag => typeof x === 'object' && x !== null && !Array.isArray(x);
/** What a name under a key must be one of. */
type Named = { code: string; all: readonly string[]; what: string };

function namesOf({ scenario, kinds, far, messages }: Findings): Readonly<Record<string, Named>> {
  const calls = [scenario.own.call, ...far];
  const control = { code: 'unknown-control', all: [...kinds.controls.keys()], what: 'a control of the station' };
  return {
    q: { code: 'unknown-quantity', all: [...kinds.sampled.keys()], what: 'a sampled quantity of the station' },
    control,
    station: { code: 'unknown-station', all: [...calls, 'own'], what: 'a station of this scenario' },
    at: { code: 'unknown-station', all: ['own', ...calls], what: 'own or a station of this scenario' },
    message: { code: 'unknown-message', all: messages, what: 'a message of the papers' },
    emission: { code: 'unknown-word', all: EMISSIONS, what: `one of ${EMISSIONS.join(', ')}` },
    box: { code: 'unknown-box', all: [...kinds.modes.keys()], what: 'a box of the station' },
  };
}

/** Names that only lines of one kind have. */
function namesOfKind({ scenario, kinds }: Findings, line: Bag): Readonly<Record<string, Named>> {
  switch (line['k']) {
    case 'far':
      return { what: { code: 'unknown-note', all: [...kinds.notes], what: 'what a station notes' } };
    case 'happen':
      return { id: { code: 'unknown-happening', all: scenario.happenings.map((h) => h.id), what: 'a happening' } };
    case 'mode': {
      const own = kinds.modes.get(String(line['box']));
      const all = own ?? [...kinds.modes.values()].flat();
      return { mode: { code: 'unknown-mode', all, what: own ? `one of ${own.join(', ')}` : 'a mode of a box' } };
    }
    default:
      return {};
  }
}

function word(found: Findings, path: Path, value: Json, { code, all, what }: Named): void {
  const one = (at: Path, text: Json | undefined) => {
    if (typeof text === 'string') found.known(code, at, text, all, what);
  };
  if (!isBag(value)) return one(path, value);
  for (const key of ['is', 'not']) one([...path, key], value[key]);
  const { in: list } = value;
  if (Array.isArray(list)) for (const [i, text] of list.entries()) one([...path, 'in', i], text);
}

/** Values of a line, and a test of a quantity, where it is known what they can be. */
function values(found: Findings, path: Path, line: Bag): void {
  const { control, q } = line;
  const range = typeof control === 'string' ? found.kinds.controls.get(control) : undefined;
  if (range && line['value'] !== undefined) found.compared([...path, 'value'], controlTakes(range), line['value']);
  const shows = typeof q === 'string' ? found.kinds.sampled.get(q) : undefined;
  if (shows === undefined) return;
  if (line['v'] !== undefined) found.compared([...path, 'v'], shownTakes(shows), line['v']);
  else found.test(path, shownTakes(shows), line as Comparable);
}

/** Everything named in `data`, at any depth. */
export function checkNames(found: Findings, path: Path, data: Json, names = namesOf(found)): void {
  if (typeof data !== 'object' || data === null) return;
  const here = isBag(data) ? { ...names, ...namesOfKind(found, data) } : {};
  for (const [key, value] of Object.entries(data)) {
    const at = [...path, Array.isArray(data) ? Number(key) : key];
    const named = Object.hasOwn(here, key) ? here[key] : undefined;
    if (named && (typeof value === 'string' || isTest(value))) word(found, at, value, named);
    else checkNames(found, at, value, names);
  }
  if (isBag(data)) values(found, path, data);
}
