/** A pattern of record lines in words, to call a moment by. */
import type { Json } from '../signals.ts';
import {
  amid,
  boxName,
  controlName,
  type Names,
  plain,
  quantityName,
  quantityValue,
  setAs,
  stood,
  told,
} from './names.ts';
import type { Pattern, Test } from './pattern.ts';

type Field = Json | Test | undefined;
const isTest = (x: Field): x is Test => typeof x === 'object' && x !== null && !Array.isArray(x);

/** Each value that a field may have, when it names some. */
function choices(x: Field): Json[] {
  if (x === undefined) return [];
  if (!isTest(x)) return [x];
  if (x.in !== undefined) return x.in;
  if (x.is !== undefined) return [x.is];
  return x.like === undefined ? [] : [x.like.replaceAll('*', ' ').trim()];
}

const either = (all: readonly string[]): string => all.join(' or ');

/** A test's bounds: "above 20 V". */
function bounds(x: Field, say: (n: Json) => string): string {
  if (!isTest(x)) return '';
  const part = (word: string, n: Json | undefined): string[] => (n === undefined ? [] : [`${word} ${say(n)}`]);
  return [...part('above', x.above), ...part('below', x.below), ...part('not', x.not)].join(' and ');
}

function valueMoment(names: Names, p: Pattern): string {
  return either(
    choices(p['q']).map((q) => {
      const values = choices(p['v']);
      if (values.length > 0) return either(values.map((v) => stood(names, String(q), v)));
      return `${quantityName(names, String(q))} ${bounds(p['v'], (n) => quantityValue(names, String(q), n))}`.trim();
    }),
  );
}

function actMoment(names: Names, p: Pattern): string {
  const values = choices(p['value']);
  return either(
    choices(p['control']).flatMap((c) =>
      values.length > 0 ? values.map((v) => amid(setAs(names, String(c), v))) : [amid(controlName(names, String(c)))],
    ),
  );
}

function airMoment(p: Pattern): string {
  const who = either(choices(p['station']).map(String)) || 'a station';
  const isSilent = choices(p['power_W'])[0] === 0;
  const emission = choices(p['emission']).map(String);
  return `${who} ${isSilent ? 'off' : 'on'} the air${emission.length > 0 ? ` in ${either(emission)}` : ''}`;
}

const SAY: Partial<Record<NonNullable<Pattern['k']>, (names: Names, p: Pattern) => string>> = {
  mode: (names, p) =>
    `${amid(boxName(names, String(p['box'] ?? 'a box')))} ${either(choices(p['mode']).map((m) => plain(String(m))))}`,
  value: valueMoment,
  do: actMoment,
  refused: (names, p) => `${actMoment(names, p)} refused`,
  air: (_, p) => airMoment(p),
  far: (names, p) =>
    either(
      choices(p['what']).map((w) =>
        told(names, either(choices(p['station']).map(String)) || 'a station', String(w), {}),
      ),
    ),
  print: (_, p) => `print at ${p['at'] === 'own' ? 'the own machine' : String(p['at'] ?? 'a machine')}`,
  spoke: (_, p) => `${either(choices(p['station']).map(String)) || 'a station'} speaking`,
  heard: (_, p) => `${either(choices(p['words']).map(String)) || 'words'} heard`,
  log: (_, p) => `${either(choices(p['text']).map(String)) || 'an entry'} in the log`,
  end: () => 'the end of the drill',
};

/** What a pattern points at, amid a sentence: "inverter pair running", "QV7K challenged", "battery isolator off". */
export function momentText(names: Names, p: Pattern): string {
  if (p['t'] === 0) return 'the beginning';
  const words = p.k === undefined ? '' : (SAY[p.k]?.(names, p) ?? plain(String(p['id'] ?? p['what'] ?? p.k)));
  return words.trim() || 'the moment';
}
