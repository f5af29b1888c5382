/** How people call what a record names by id. The tables come from the boxes and correspondents themselves. */
import { frequencyText, grouped } from '../quantity/time-text.ts';
import type { ControlValue, Json } from '../signals.ts';
import type { Range } from './range.ts';

/** A control by name, and where it stands before anybody touched it. */
export type NamedControl = { name: string; range: Range; rest: ControlValue };
/** Names of boxes, of controls by `box.control`, and what a station's own note (a `far` line) tells. */
export type Names = {
  boxes: ReadonlyMap<string, string>;
  controls: ReadonlyMap<string, NamedControl>;
  /** What a box's mode is in words, by `box.mode`, where its id made plain will not do. */
  modes: ReadonlyMap<string, string>;
  /** `{x}` is filled in from the detail; a part in square brackets goes if that is not there. */
  tells: ReadonlyMap<string, string>;
  /** Words that a note uses as ids. */
  terms: ReadonlyMap<string, string>;
};

/** No names: everything is called by its id, made plain. */
export const NO_NAMES: Names = {
  boxes: new Map(),
  controls: new Map(),
  modes: new Map(),
  tells: new Map(),
  terms: new Map(),
};

/** An id as words: `hotOff` is "hot off", `no-reply` is "no reply". */
export const plain = (id: string): string =>
  id
    .replace(/[._-]+/g, ' ')
    .replace(/(?<=[a-z]{2})[A-Z](?=[a-z]|\b)/g, (c) => ` ${c.toLowerCase()}`)
    .trim();

/** A name amid a sentence: its first letter small, unless it is all in capitals. */
export const amid = (name: string): string =>
  /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
/** A text with its first letter tall. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Name of a box. */
export const boxName = (names: Names, box: string): string => names.boxes.get(box) ?? plain(box);
/** A mode of a box, amid a sentence: "running", "switched off hot". */
export const modeName = (names: Names, box: string, mode: string): string =>
  names.modes.get(`${box}.${mode}`) ?? plain(mode);

const measured = (n: number, unit: string): string =>
  unit === 'Hz' ? frequencyText(n) : `${grouped(n)}${unit ? ` ${unit}` : ''}`;

/** A word that a note or a pattern uses as an id. */
function word(names: Names, text: string): string {
  const known = names.terms.get(text) ?? names.controls.get(text)?.name;
  if (known !== undefined) return known;
  return /^[a-z]\w*([-.][a-zA-Z_]+)*$/.test(text) ? plain(text) : text.replace(/^NR(?=\d)/, 'NR ');
}

/** Plain data in words: a list with commas, a map as "key value, key value". */
export function inWords(names: Names, x: Json): string {
  if (x === null) return 'nothing';
  if (typeof x === 'boolean') return x ? 'yes' : 'no';
  if (typeof x === 'number') return grouped(x);
  if (typeof x === 'string') return word(names, x);
  const parts = Array.isArray(x)
    ? x.map((one) => inWords(names, one))
    : Object.entries(x).map(([key, one]) => `${plain(key)} ${inWords(names, one)}`);
  return parts.length > 0 ? parts.join(', ') : 'nothing';
}

const unitOf = (range: Range | undefined): string => (range?.kind === 'number' ? range.unit : '');

function setting(names: Names, range: Range | undefined, value: Json): string {
  if (typeof value === 'boolean') return range?.kind === 'switch' ? range.words[value ? 1 : 0] : value ? 'on' : 'off';
  if (typeof value === 'number') return measured(value, unitOf(range));
  const isOwn = range?.kind === 'text' || (range?.kind === 'words' && range.words.includes(value as string));
  return typeof value === 'string' && isOwn ? value : inWords(names, value);
}

/** Name of the control `box.id`, or its id made plain. */
export const controlName = (names: Names, full: string): string => names.controls.get(full)?.name ?? plain(full);

/** Where a control stands, in its own words and unit: "on", "25 kHz". */
export const standsAt = (names: Names, full: string, value: Json): string =>
  setting(names, names.controls.get(full)?.range, value);

/** A control as set: "Battery isolator on", "Line lever OUT", "Start". A text stands in quotes. */
export function setAs(names: Names, full: string, value: Json): string {
  const control = names.controls.get(full);
  const name = controlName(names, full);
  if (control?.range.kind === 'press') return value === false ? `${name} let go` : name;
  if (control?.range.kind === 'text') return `${name} "${standsAt(names, full, value)}"`;
  const unit = unitOf(control?.range);
  const said = standsAt(names, full, value);
  // "Counterpoise wires 4", not "4 wires".
  return `${name} ${unit && name.endsWith(unit) ? said.slice(0, -unit.length).trim() : said}`;
}

type Sampled = { box: string; name: string; unit: string; control: NamedControl | undefined };

function sampled(names: Names, q: string): Sampled {
  const [box = '', thing = q] = q.split('.');
  const [id = thing, unit = ''] = thing.split('_');
  const control = names.controls.get(`${box}.${id}`);
  return { box, name: control?.name ?? plain(id), unit, control };
}

/** A sampled quantity's name amid a sentence: "insulator guard", "reflected". */
export const quantityName = (names: Names, q: string): string => amid(sampled(names, q).name);

/** A value of a sampled quantity alone: "on", "7.5 W", "4 718.035 kHz". */
export function quantityValue(names: Names, q: string, value: Json): string {
  const { unit, control } = sampled(names, q);
  if (typeof value === 'number' && control?.range.kind !== 'words')
    return measured(value, unit || unitOf(control?.range));
  return setting(names, control?.range, value);
}

/**
 * A sampled quantity as it stood: "insulator guard off", "reflected 7.5 W", "sender not hot"; against a wanted value `near`
 * it is "tuned 35 Hz high, 4 718.035 kHz".
 */
export function stood(names: Names, q: string, value: Json | undefined, near?: number): string {
  const { box, name, unit, control } = sampled(names, q);
  if (value === undefined) return `${amid(name)} not seen`;
  if (typeof value === 'boolean' && !control) return `${amid(boxName(names, box))} ${value ? '' : 'not '}${name}`;
  if (near === undefined || typeof value !== 'number') return `${amid(name)} ${quantityValue(names, q, value)}`;
  const off = value - near;
  const how = off === 0 ? `${measured(0, unit)} off` : `${measured(Math.abs(off), unit)} ${off > 0 ? 'high' : 'low'}`;
  return `${amid(name)} ${how}, ${measured(value, unit)}`;
}

/** What a station did, as its own note tells it: "QV7K challenged: row A, column W". The `own` station is not named. */
export function told(names: Names, station: string, what: string, detail: { [key: string]: Json }): string {
  const given = (text: string): string =>
    text.replace(/\{(\w+)\}/g, (_, key: string) => inWords(names, detail[key] ?? ''));
  const isThere = (part: string): boolean =>
    Array.from(part.matchAll(/\{(\w+)\}/g)).every(([, key]) => (detail[key as string] ?? null) !== null);
  const words = (names.tells.get(what) ?? `${plain(what)}[, {why}]`).replace(/\[(.*?)\]/g, (_, part: string) =>
    isThere(part) ? part : '',
  );
  return station === 'own' ? given(words) : `${station} ${given(words)}`;
}
