/** The schema of a scenario file, put together from what the catalogue knows. */
import * as v from 'valibot';
import { grounds } from '../physics/ground-wave/ground.ts';
import { pattern, testKeys } from '../record/pattern-shape.ts';
import {
  anything,
  byKey,
  byKind,
  callSign,
  code,
  fault,
  flag,
  fullName,
  list,
  map,
  name,
  number,
  oneOf,
  record,
  scalar,
  text,
  whole,
} from '../record/shape.ts';
import type { Kinds } from './scenario.ts';

/** Longest line of a message, characters (a page line of 69, common practice). */
export const LINE_CHARS = 69;
const SECONDS = 86_400;

const date = code(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'a date YYYY-MM-DD');
const clock = code(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time HH:MM in UTC');
const clockEnd = code(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, 'a time HH:MM in UTC, up to 24:00');
const clockSeconds = code(/^([01]\d|2[0-3]):[0-5]\d:[0-5]\d$/, 'a time HH:MM:SS in UTC');
const side = v.pipe(
  code(/^[A-Z]{1,26}$/, 'capital letters'),
  v.check((s) => new Set(s).size === s.length, fault('bad-code', 'each letter once')),
);
const some = (s: v.GenericSchema) => v.optional(s);

const draw = byKey(() => ({
  pick: map({ pick: list(anything, 1000, 1), with: name }),
  of: map({ of: list(anything, 1000, 1) }),
  from: map({ from: number(-1e9, 1e9), to: number(-1e9, 1e9), step: number(1e-6, 1e9) }),
}));

/** The part `draws` of a file. */
export const drawsShape = record(name, draw);

const papers = map({
  frequencies: some(
    list(
      map({ name, kHz: number(400, 28_000), setting: some(whole(1, 12)), from: clock, to: clockEnd, use: text(120) }),
      24,
    ),
  ),
  calls: some(list(map({ call: callSign, place: text(60), who: text(80) }), 60)),
  card: some(
    map({
      name: text(40),
      rows: side,
      columns: side,
      valid: date,
    }),
  ),
  messages: some(
    list(
      map({
        id: code(/^[A-Z]{1,4}[0-9]{1,4}$/, 'a message number like "NR14"'),
        to: callSign,
        precedence: oneOf(['FLASH', 'IMMEDIATE', 'PRIORITY', 'ROUTINE']),
        lines: list(v.string(fault('unquoted-code', 'a line of the message in quotes')), 60, 1),
      }),
      40,
    ),
  ),
});

const condition: v.GenericSchema = byKey(() => CONDITIONS);
const CONDITIONS: Readonly<Record<string, v.GenericSchema>> = {
  see: map({ see: fullName, ...testKeys }),
  standing: map({ standing: fullName, ...testKeys }),
  did: map({ did: fullName, ...testKeys }),
  heard: map({ heard: text(300) }),
  printed: map({ printed: text(300) }),
  quiet: map({ quiet: number(0, 86_400) }),
  remembered: map({ remembered: name, is: scalar }),
  all: map({ all: list(condition, 20, 1) }),
  any: map({ any: list(condition, 20, 1) }),
  not: map({ not: condition }),
};

const seconds = number(0, SECONDS);
const action: v.GenericSchema = byKey(() => ACTIONS);
const actions = list(action, 200);
const pressed = v.lazy((x) => (Array.isArray(x) ? list(fullName, 40, 1) : fullName));
const ACTIONS: Readonly<Record<string, v.GenericSchema>> = {
  set: map({ set: record(fullName, scalar) }),
  press: map({ press: pressed }),
  hold: map({ hold: map({ control: fullName, do: actions }) }),
  turn: map({ turn: map({ control: fullName, see: fullName, is: number(-1e9, 1e9), by: number(1e-6, 1e6) }) }),
  wait: map({ wait: seconds }),
  again: map({ again: whole(1, 1000), until: condition, do: actions }),
  until: map({ until: condition, within: seconds }),
  say: map({ say: text(300) }),
  hear: map({ hear: text(300), within: seconds }),
  lookup: map({ lookup: map({ row: name, column: name, as: name }) }),
  choose: map({ choose: map({ row: name, column: name }) }),
  check: map({ check: map({ row: name, column: name, heard: list(name, 10, 1), as: name }) }),
  type: map({ type: text(400) }),
  punch: map({ punch: text(10) }),
  log: map({ log: text(120) }),
  tune: map({
    tune: map({
      control: fullName,
      from: number(-1e6, 1e6),
      to: number(-1e6, 1e6),
      by: number(1e-6, 1e6),
      around: some(flag),
      every_s: number(0.01, 600),
      least: some(fullName),
      most: some(fullName),
    }),
  }),
  when: map({ when: condition, do: actions, else: some(actions) }),
};

const step = map({
  id: name,
  phase: name,
  title: text(120),
  why: text(400),
  tip: some(text(400)),
  form: some(text(10)),
  do: actions,
  done: some(condition),
});

const deed = byKey(() => ({
  station: map({ station: callSign, tell: anything }),
  inner: map({ inner: record(fullName, anything) }),
}));
const happening = byKey(() => ({
  at_s: map({ id: name, at_s: seconds, do: deed }),
  when: map({ id: name, when: pattern, after_s: seconds, do: deed }),
}));

const head = {
  id: name,
  title: text(120),
  weight: number(0, 1000),
  critical: v.optional(flag),
  standard: text(300),
  why: text(400),
  next: text(400),
};

function measureShapes(kinds: Kinds): ReadonlyMap<string, v.GenericSchema> {
  return new Map(
    Array.from(kinds.measures, ([kind, own]) => [kind, map({ ...head, kind: v.literal(kind), ...own.entries })]),
  );
}

function stationShapes(kinds: Kinds): ReadonlyMap<string, v.GenericSchema> {
  const ground = oneOf(Object.keys(grounds));
  const path = list(map({ ground, km: number(0.01, 4000) }), 20, 1);
  return new Map(
    Array.from(kinds.correspondents, ([kind, own]) => [
      kind,
      map({ call: callSign, kind: v.literal(kind), place: text(60), path, with: own.schema }),
    ]),
  );
}

/** The whole schema for these kinds. */
export function scenarioShape(kinds: Kinds) {
  const measures = measureShapes(kinds);
  const stations = stationShapes(kinds);
  return map({
    id: code(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, 'small letters, digits and hyphens'),
    title: text(120),
    about: text(400),
    minutes: map({ novice: number(0.1, 600), expert: number(0.1, 600) }),
    order: map({ task: text(2000), conditions: list(text(400), 20), standards: list(text(400), 20) }),
    world: map({
      date,
      utc: clockSeconds,
      at: v.strictTuple(
        [number(-90, 90), number(-180, 180)],
        fault('wrong-type', 'a pair [latitude, longitude] in degrees'),
      ),
      R12: number(0, 250),
      noise: oneOf(['city', 'residential', 'rural', 'quiet-rural']),
    }),
    draws: some(drawsShape),
    own: map({ call: callSign, controls: some(record(fullName, scalar)), inner: some(record(fullName, anything)) }),
    papers,
    stations: list(
      byKind(() => stations),
      20,
    ),
    happenings: some(list(happening, 200)),
    measures: list(
      byKind(() => measures),
      100,
      1,
    ),
    pass: number(0, 100),
    time_limit_min: number(0.1, 600),
    steps: some(list(step, 200)),
  });
}
