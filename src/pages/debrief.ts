/** The debrief: the outcome, the strip, one finding at a time, and every measure with its standard. */

import type { Debrief, Finding, Judged } from '../core/debrief/debrief.ts';
import { chartStrip } from './chart.ts';
import { cap, h, refill } from './dom.ts';
import { evidence } from './evidence.ts';
import type { Lent, Rooms } from './host.ts';
import { dayText, held, utcText } from './hours.ts';
import { replay } from './replay.ts';
import { nameField, resultSheet } from './result-sheet.ts';
import { saveText } from './save.ts';
import { keysSlip } from './slip.ts';
import { locatedNote, troubleNote } from './trouble.ts';
import type { Page, Ways } from './ways.ts';

/** A debrief with the record that it is of, as text. */
type Told = { debrief: Debrief; record: string; name: string };

function verdict(d: Debrief): HTMLElement {
  const met = d.measures.filter((m) => m.go).length;
  return h(
    'div',
    { class: 'verdict' },
    h('strong', { class: 'verdict__word' }, d.verdict),
    h(
      'span',
      { class: 'verdict__tape' },
      h(
        'span',
        { class: 'verdict__holes', 'aria-hidden': 'true' },
        ...d.measures.map((m) => h('span', { class: m.go ? 'hole hole--punched' : 'hole' })),
      ),
      h(
        'span',
        {},
        h('b', {}, `${met} of ${d.measures.length}`),
        `, ${Math.round(d.score)} points of 100, GO from ${d.pass}`,
      ),
    ),
  );
}

function heading(d: Debrief): HTMLElement {
  const span = `${utcText(d.utc0, 0).slice(0, 5)} to ${utcText(d.utc0, d.end_us).slice(0, 5)} UTC`;
  return h(
    'header',
    { class: 'debrief__head' },
    h(
      'div',
      {},
      h('h1', {}, d.title),
      h(
        'p',
        { class: 'quiet' },
        `${capital(d.manner)}, draw ${d.seed}. ${dayText(d.date)}, ${span}. ${d.ended === 'not ended' ? 'Not ended' : `Ended: ${d.ended}`}.`,
      ),
    ),
    verdict(d),
  );
}

function turner(i: number, of: number, choose: (i: number) => void): HTMLElement | false {
  const turn = (to: number, says: string) =>
    h(
      'button',
      { type: 'button', class: 'push', disabled: to < 0 || to >= of, onclick: () => choose(to), 'data-turn': says },
      says,
    );
  return (
    of > 1 &&
    h(
      'div',
      { class: 'finding__turn' },
      turn(i - 1, 'Before'),
      h('span', { class: 'quiet' }, `${i + 1} of ${of}`),
      turn(i + 1, 'Next'),
    )
  );
}

function card(f: Finding, i: number, d: Debrief, choose: (i: number) => void): HTMLElement {
  const happened = capital(held(f.happened).replace(/^not exercised: /, 'not tried: ')).replace(/\.$/, '');
  return h(
    'article',
    { class: 'finding sheet', 'aria-labelledby': 'finding-title' },
    h(
      'header',
      { class: 'finding__head' },
      h('span', { class: 'finding__n' }, i + 1),
      h('h2', { id: 'finding-title' }, f.title),
      h('span', { class: 'mono' }, utcText(d.utc0, f.at_us)),
    ),
    h('h3', {}, 'What happened'),
    h('p', {}, `${happened}. Expected: ${held(f.expected)}.`),
    h('h3', {}, 'Why it matters'),
    h('p', {}, held(f.why)),
    h('h3', {}, 'Next time'),
    h('p', {}, held(f.next)),
    turner(i, d.findings.length, choose),
  );
}

const clean = (): HTMLElement =>
  h(
    'article',
    { class: 'finding sheet' },
    h('header', { class: 'finding__head' }, h('h2', {}, 'Nothing to mend')),
    h(
      'p',
      {},
      'Every measure was met. Another draw of the same drill changes the dial, the filter, the challenge and the text.',
    ),
  );

const state = (m: Judged): string => (m.go ? 'met' : m.exercised ? 'not met' : 'not tried');

function row(m: Judged, d: Debrief, choose: (i: number) => void): HTMLElement {
  const finding = d.findings.findIndex((f) => f.measure === m.id);
  const title = finding >= 0 ? h('button', { type: 'button', onclick: () => choose(finding) }, m.title) : m.title;
  return h(
    'tr',
    { class: m.critical && 'must' },
    h('th', { scope: 'row' }, title, m.critical && h('span', { class: 'unseen' }, ', must be met')),
    h('td', {}, held(m.standard)),
    h('td', { class: 'yours' }, held(m.yours)),
    h(
      'td',
      { class: 'state' },
      h('span', { class: m.go ? 'hole hole--punched' : 'hole', 'aria-hidden': 'true' }),
      ` ${state(m)}`,
    ),
    h('td', { class: 'mono' }, `${Math.round(m.points)}/${m.of}`),
  );
}

function measures(d: Debrief, choose: (i: number) => void): HTMLElement {
  const head = ['Measures', 'standard', 'yours', '', 'points'].map((name) =>
    h('th', { scope: 'col' }, name || h('span', { class: 'unseen' }, 'met')),
  );
  return h(
    'section',
    { class: 'debrief__measures', 'aria-label': 'Measures' },
    h(
      'table',
      { class: 'measures' },
      h('thead', {}, h('tr', {}, ...head)),
      h('tbody', {}, ...d.measures.map((m) => row(m, d, choose))),
    ),
    h(
      'p',
      { class: 'debrief__legend' },
      h('span', {}, h('span', { class: 'hole hole--punched' }), ' met'),
      h('span', {}, h('span', { class: 'hole' }), ' not met'),
      h('span', {}, 'framed: must be met'),
    ),
  );
}

function asides(d: Debrief): HTMLElement | false {
  const said = [
    d.stretch !== 1 && `Limits were ${d.stretch} times as long as stated.`,
    d.helps > 0 && `Help was given ${d.helps === 1 ? 'once' : `${d.helps} times`}.`,
    d.interruptions.length > 0 &&
      `The trainer was away ${d.interruptions.length === 1 ? 'once' : `${d.interruptions.length} times`}; the clock stood.`,
  ].filter((x) => x !== false);
  return said.length > 0 && h('p', { class: 'quiet' }, said.join(' '));
}

/** Fills the page with a debrief and says what its keys do. */
function fillPage(el: HTMLElement, told: Told, lent: Lent, ways: Ways): Page['key'] {
  const d = told.debrief;
  const strip = h('div', { class: 'lies' });
  const finding = h('div', { class: 'debrief__finding lies', 'aria-live': 'polite' });
  const choose = (i: number) => {
    refill(strip, chartStrip(d, i, choose));
    const f = d.findings[i];
    refill(finding, f ? card(f, i, d, choose) : clean());
  };
  choose(0);
  const { field, written } = nameField(lent.settings);
  const assessed = d.manner === 'assessed';
  const save = () => saveText(`${told.name}.jsonl`, told.record);
  const shown = Math.min(d.findings.length, 9);
  const keys: [string, string, () => void][] = [
    ['X', 'save the record', save],
    ['P', assessed ? 'print the result sheet' : 'print', () => print()],
    ['Esc', 'drills', () => ways.first()],
  ];
  const list = () =>
    keysSlip(
      [
        ...(shown > 0 ? [[shown > 1 ? `1 to ${shown}` : '1', 'what went wrong, one by one'] as const] : []),
        ...keys.map(([key, does]) => [key, does] as const),
      ],
      'Anything else is reached by Tab.',
    );
  refill(
    el,
    heading(d),
    h(
      'main',
      { id: 'main', class: 'debrief' },
      strip,
      h(
        'div',
        { class: 'debrief__two' },
        h('div', { class: 'debrief__left' }, finding, asides(d), evidence(d), field),
        measures(d, choose),
      ),
    ),
    resultSheet(d, written),
    h(
      'footer',
      { class: 'imprint' },
      h('span', {}, h('b', {}, 'Keydown'), ' debrief'),
      h(
        'ul',
        {},
        ...keys.map(([key, does, go]) => h('li', {}, h('button', { type: 'button', onclick: go }, cap(key), does))),
        h('li', {}, h('button', { type: 'button', onclick: list }, cap('?'), 'keys')),
      ),
    ),
  );
  return (key) => {
    if (/^[1-9]$/.test(key) && Number(key) <= shown) return () => choose(Number(key) - 1);
    if (key === 'escape') return () => ways.first();
    if (key === '?') return list;
    return keys.find(([name]) => name.toLowerCase() === key)?.[2];
  };
}

function page(lent: Lent, ways: Ways, tell: (el: HTMLElement, rooms: Rooms) => Promise<Told | HTMLElement>): Page {
  const body = h(
    'div',
    { class: 'page page--debrief' },
    h('main', { id: 'main' }, h('p', { role: 'status' }, 'Marking the record ...')),
  );
  const made: Page = {
    el: body,
    title: 'Debrief - Keydown',
    key: (key) => (key === 'escape' ? () => ways.first() : undefined),
  };
  const stop = (note: HTMLElement) =>
    refill(
      body,
      h(
        'main',
        { id: 'main' },
        h('h1', {}, 'Debrief'),
        note,
        h(
          'p',
          { class: 'slip__foot' },
          h('button', { type: 'button', class: 'push', onclick: () => ways.first() }, 'To the first page'),
        ),
      ),
    );
  lent
    .rooms()
    .then((rooms) => tell(body, rooms))
    .then((told) => {
      if (told instanceof HTMLElement) return stop(told);
      const key = fillPage(body, told, lent, ways);
      if (key) made.key = key;
    });
  return made;
}

const NO_RUN = {
  what: 'This browser does not hold that run.',
  why: 'It was removed, or it was worked in another browser.',
  todo: 'Open its record if you saved one.',
};

/** The debrief of a run from the shelf. */
export function debriefPage(lent: Lent, ways: Ways, id: string): Page {
  return page(lent, ways, async (_el, rooms) => {
    const run = lent.runs.load(id);
    if (!run) return troubleNote(NO_RUN);
    const again = await replay(rooms, run, () => {});
    if (!again.ok) return unreadable(again.errors);
    const { record } = again.value.drill;
    const read = rooms.debrief(record);
    const name = `${run.head.name.replace(/\.yaml$/, '')}-draw-${run.head.seed}`;
    return read.ok ? { debrief: read.value, record: rooms.write(record), name } : unreadable(read.errors);
  });
}

/** The debrief of a record from a file. */
export function foreignRecordPage(lent: Lent, ways: Ways, { text, file }: { text: string; file: string }): Page {
  return page(lent, ways, async (_el, rooms) => {
    const record = rooms.read(text, file);
    if (!record.ok) return unreadable(record.errors);
    const read = rooms.debrief(record.value);
    return read.ok
      ? { debrief: read.value, record: text, name: file.replace(/\.[^.]*$/, '') }
      : unreadable(read.errors);
  });
}

const unreadable = (errors: Parameters<typeof locatedNote>[3]): HTMLElement =>
  locatedNote(
    'This record cannot be read.',
    'A mark is made from the record alone, so there is none without it.',
    'Take the file as the trainer saved it; the first fault is shown below.',
    errors,
  );

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);
