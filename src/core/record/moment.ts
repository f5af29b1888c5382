/** A pattern of record lines in words, to call a moment by. */
import type { Json } from '../signals.ts';
import {
  amid,
  boxName,
  controlName,
  inWords,
  modeName,
  type Names,
  NO_NAMES,
  plain,
  quantityName,
  quantityValue,
  setAs,
  standsAt,
  stood,
  told,
} from './names.ts';
import type { Pattern, Test } from './pattern.ts';
import type { Line } from './record.ts';

type Field = Json | Test | undefined;
type Say = (x: Json) => string;
const isTest = (x: Field): x is Test => typeof x === 'object' && x !== null && !Array.isArray(x);

/** Each value that a field may have, when it names some. */
function choices(x: Field): Json[] {
  if (x === undefined) return [];
  if (!isTest(x)) return [x];
  if (x.in !== undefined) return x.in;
  return x.is === undefined ? [] : [x.is];
}

const either = (all: readonly string[]): string => Array.from(new Set(all.map((one) => one.trim()))).join(' or ');

/** What a test asks of a value that it does not name: "above 20 V", "not off", "with R NR 14". */
function bounds(x: Field, say: Say): string {
  if (!isTest(x)) return '';
  const part = (word: string, text: string | undefined): string[] => (text ? [`${word} ${text}`] : []);
  const number = (n: number | undefined): string | undefined => (n === undefined ? undefined : say(n));
  return [
    ...part('above', number(x.above)),
    ...part('below', number(x.below)),
    ...part('not', x.not === undefined ? undefined : say(x.not)),
    ...part('with', x.like && plain(x.like.replaceAll('*', ' ').replace(/\s+/g, ' '))),
  ].join(' and ');
}

/** What a field says: each value that it names, or else `any` and its bounds. */
const said = (x: Field, any: string, say: Say): string =>
  either(choices(x).map(say)) || `${any} ${bounds(x, say)}`.trim();

const idOf = (x: Json): string => (typeof x === 'string' ? x : inWords(NO_NAMES, x));

/** What is told of each thing that a field names, or of `any` of them within its bounds. */
function each(
  x: Field,
  any: string,
  call: (id: string) => string,
  tell: (called: string, id: string) => string,
): string {
  const ids = choices(x).map(idOf);
  if (ids.length > 0) return either(ids.map((id) => tell(call(id), id)));
  const called = said(x, any, (one) => call(idOf(one)));
  return tell(called, '').trim();
}

const inPlain =
  (names: Names): Say =>
  (x) =>
    inWords(names, x);

function valueMoment(names: Names, p: Pattern): string {
  const call = (q: string): string => quantityName(names, q);
  return each(p['q'], 'a quantity', call, (called, q) => {
    const values = choices(p['v']);
    if (q && values.length > 0) return either(values.map((v) => stood(names, q, v)));
    return `${called} ${said(p['v'], '', (v) => quantityValue(names, q, v))}`;
  });
}

function actMoment(names: Names, p: Pattern): string {
  const call = (control: string): string => amid(controlName(names, control));
  return each(p['control'], 'a control', call, (called, control) => {
    const values = choices(p['value']);
    if (control && values.length > 0) return either(values.map((v) => amid(setAs(names, control, v))));
    return `${called} ${said(p['value'], '', (v) => standsAt(names, control, v))}`;
  });
}

function modeMoment(names: Names, p: Pattern): string {
  const call = (box: string): string => amid(boxName(names, box));
  return each(
    p['box'],
    'a box',
    call,
    (called, box) => `${called} ${said(p['mode'], '', (m) => modeName(names, box, idOf(m)))}`,
  );
}

function airMoment(names: Names, p: Pattern): string {
  const isSilent = choices(p['power_W'])[0] === 0;
  const emission = p['emission'] === undefined ? '' : ` in ${said(p['emission'], 'an emission', inPlain(names))}`;
  return `${said(p['station'], 'a station', inPlain(names))} ${isSilent ? 'off' : 'on'} the air${emission}`;
}

/** The details that a pattern names, as a note would have them. */
const detailOf = (names: Names, p: Pattern): { [key: string]: Json } =>
  Object.fromEntries(
    Object.entries(p).flatMap(([field, x]) => {
      const text = either(choices(x).map(inPlain(names)));
      return field.startsWith('detail.') && text !== '' ? [[field.slice('detail.'.length), text]] : [];
    }),
  );

function farMoment(names: Names, p: Pattern): string {
  const who = said(p['station'], 'a station', inPlain(names));
  return each(p['what'], 'did something', plain, (called, what) =>
    what ? told(names, who, what, detailOf(names, p)) : `${who} ${called}`,
  );
}

const SAY: Record<NonNullable<Pattern['k']>, (names: Names, p: Pattern) => string> = {
  mode: modeMoment,
  value: valueMoment,
  do: actMoment,
  refused: (names, p) => `${actMoment(names, p)} refused`,
  air: airMoment,
  far: farMoment,
  print: (names, p) =>
    `print at ${said(p['at'], 'a machine', (at) => (at === 'own' ? 'the own machine' : inWords(names, at)))}`,
  spoke: (names, p) => `${said(p['station'], 'a station', inPlain(names))} speaking`,
  heard: (names, p) => `${said(p['words'], 'words', inPlain(names))} heard`,
  log: (names, p) => `${said(p['text'], 'an entry', inPlain(names))} in the log`,
  happen: (names, p) => said(p['id'], 'a happening', inPlain(names)),
  help: (names, p) => `help with ${said(p['what'], 'a step', inPlain(names))}`,
  interruption: () => 'an interruption',
  end: () => 'the end of the drill',
};

/** What a pattern points at, amid a sentence: "inverter pair running", "QV7K challenged", "battery isolator off". */
export function momentText(names: Names, p: Pattern): string {
  if (p['t'] === 0) return 'the beginning';
  return (p.k === undefined ? '' : SAY[p.k](names, p)).trim() || 'the moment';
}

/** What a line says happened, amid a sentence. */
export function lineText(names: Names, line: Line): string {
  if (line.k === 'far') return told(names, line.station, line.what, line.detail);
  const fields = Object.entries(line).filter(([field]) => field !== 't' && field !== 'i' && field !== 'k');
  return momentText(names, { k: line.k, ...Object.fromEntries(fields.map(([field, is]) => [field, { is }])) });
}
