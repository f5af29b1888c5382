/** Names and values in patterns of record lines and in measures: they come from elsewhere, and are known by their keys. */
import { fits, meets } from '../record/pattern.ts';
import { EMISSIONS, type Json } from '../signals.ts';
import type { Findings, Path } from './findings.ts';
import type { FarKind } from './scenario.ts';
import { type Comparable, controlTakes, isTest, shownTakes } from './takes.ts';

type Bag = { readonly [key: string]: Json };
const isBag = (x: Json | undefined): x is Bag => typeof x === 'object' && x !== null && !Array.isArray(x);
/** What a name under a key must be one of. */
type Named = { code: string; all: readonly string[]; what: string };
/** Whether a name is what a field of a pattern says, plain or as a test. */
const admits = (field: Json, name: string): boolean => (isBag(field) ? meets(name, field) : field === name);

/** Call signs of the distant stations whose kind is such. */
const callsOf = ({ scenario, kinds }: Findings, fits: (kind: FarKind) => boolean): string[] =>
  scenario.stations.flatMap(({ call, kind }) => {
    const known = kinds.correspondents.get(kind);
    return known === undefined || fits(known) ? [call] : [];
  });

function namesOf(found: Findings): Readonly<Record<string, Named>> {
  const { scenario, kinds, far, messages } = found;
  const calls = [scenario.own.call, ...far];
  const control = { code: 'unknown-control', all: [...kinds.controls.keys()], what: 'a control of the station' };
  return {
    q: { code: 'unknown-quantity', all: [...kinds.sampled.keys()], what: 'a sampled quantity of the station' },
    control,
    station: { code: 'unknown-station', all: [...calls, 'own'], what: 'a station of this scenario' },
    at: {
      code: 'unknown-station',
      all: ['own', ...callsOf(found, ({ leaves }) => leaves?.includes('print') ?? false)],
      what: 'own or a station of this scenario that prints',
    },
    'detail.by': {
      code: 'unknown-station',
      all: [...calls, ...scenario.papers.calls.map(({ call }) => call)],
      what: 'a station of this scenario or its call-sign card',
    },
    message: { code: 'unknown-message', all: messages, what: 'a message of the papers' },
    emission: { code: 'unknown-word', all: EMISSIONS, what: `one of ${EMISSIONS.join(', ')}` },
    box: { code: 'unknown-box', all: [...kinds.modes.keys()], what: 'a box of the station' },
  };
}

/** The own station notes as `own`, and distant ones what their kinds do. */
function notesIn(found: Findings, station: Json | undefined): Readonly<Record<string, Named>> {
  const { scenario, kinds } = found;
  const notesOf = (call: string): readonly string[] => {
    const kind = scenario.stations.find((x) => x.call === call)?.kind ?? '';
    return call === 'own' ? kinds.ownNotes : Object.keys(kinds.correspondents.get(kind)?.tells ?? {});
  };
  const all = ['own', ...callsOf(found, ({ tells }) => tells !== undefined)];
  const meant = all.filter((call) => station === undefined || admits(station, call));
  const who = meant.length === 1 ? meant[0] : 'such a station';
  const notes = new Set((meant.length > 0 ? meant : all).flatMap(notesOf));
  return {
    station: { code: 'unknown-station', all, what: 'own or a station of this scenario that notes something' },
    what: { code: 'unknown-note', all: [...notes], what: `what ${who} notes (${[...notes].join(', ')})` },
  };
}

/** The own station is on the air by its call sign. */
function onAir(found: Findings, fits: (kind: FarKind) => boolean): Readonly<Record<string, Named>> {
  const all = [found.scenario.own.call, ...callsOf(found, fits)];
  return { station: { code: 'unknown-station', all, what: `the call sign of a station (${all.join(', ')})` } };
}

/** Names that only lines of one kind have. */
function namesOfKind(found: Findings, line: Bag): Readonly<Record<string, Named>> {
  const { scenario, kinds } = found;
  switch (line['k']) {
    case 'far':
      return notesIn(found, line['station']);
    case 'air':
      return onAir(found, () => true);
    case 'spoke':
      return onAir(found, ({ leaves }) => leaves?.includes('spoke') ?? false);
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
  const { in: list, like } = value;
  if (Array.isArray(list)) for (const [i, text] of list.entries()) one([...path, 'in', i], text);
  if (typeof like === 'string' && !all.some((name) => fits(name, like))) found.say(code, [...path, 'like'], what);
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
