/** The debrief: the outcome, the strip, one finding at a time, and every measure with its standard. */

import type { Debrief } from '../core/debrief/debrief.ts';
import { chartStrip } from './chart.ts';
import { h, refill } from './dom.ts';
import { evidence } from './evidence.ts';
import { card, clean } from './finding.ts';
import { foot, type Key, keyed } from './foot.ts';
import type { Lent, Rooms, RunHead } from './host.ts';
import { capital, dayText, utcText } from './hours.ts';
import { measures, verdict } from './marks.ts';
import { progressBar } from './progress.ts';
import { refusedRecord, refusedRun, saveJournal } from './refused.ts';
import { replay } from './replay.ts';
import { nameField, resultSheet, type Saved, type SheetName, sha256Of } from './result-sheet.ts';
import { saveText } from './save.ts';
import { keysSlip } from './slip.ts';
import { troubleNote } from './trouble.ts';
import type { Page, Ways } from './ways.ts';

/** A debrief with the record that it is of, and the name on its sheet. */
type Told = { debrief: Debrief; saved: Saved; name: SheetName };

const savedAs = async (name: string, text: string): Promise<Saved> => ({
  text,
  file: `${name}.jsonl`,
  sha256: await sha256Of(text),
});

/** What a run's record is saved as; the run's own id tells it from another of the same manner and draw. */
const fileName = ({ name, manner, seed, id }: RunHead): string =>
  `${name.replace(/\.yaml$/, '')}-${manner}-draw-${seed}-${id}`;

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
        { class: 'aside' },
        `${capital(d.manner)}, draw ${d.seed}. ${dayText(d.date)}, ${span}. ${d.ended === 'not ended' ? 'Not ended' : `Ended: ${d.ended}`}.`,
      ),
    ),
    verdict(d),
  );
}

function asides(d: Debrief): HTMLElement | false {
  const [, begun] = d.engine.split(', begun with ');
  const said = [
    begun !== undefined &&
      `Begun with ${begun}: the acts were worked again by a later version, which made this record.`,
    d.stretch !== 1 && `Limits were ${d.stretch} times as long as stated.`,
    d.helps > 0 && `Help was given ${d.helps === 1 ? 'once' : `${d.helps} times`}.`,
    d.interruptions.length > 0 &&
      `The trainer was away ${d.interruptions.length === 1 ? 'once' : `${d.interruptions.length} times`}; the clock stood.`,
  ].filter((x) => x !== false);
  return said.length > 0 && h('p', { class: 'aside' }, said.join(' '));
}

/** The strip and the card beside the measures, which turn together; `choose` turns them to finding `i`. */
function turning(d: Debrief): { strip: HTMLElement; finding: HTMLElement; choose(i: number): void } {
  const strip = h('div', { class: 'lies' });
  const finding = h('div', { class: 'debrief__finding lies', 'aria-live': 'polite' });
  const choose = (i: number) => {
    refill(strip, chartStrip(d, i, choose));
    const f = d.findings[i];
    refill(finding, f ? card(f, i, d, choose) : clean());
  };
  choose(0);
  return { strip, finding, choose };
}

/** Fills the page with a debrief and says what its keys do. */
function fillPage(el: HTMLElement, { debrief: d, saved, name }: Told, ways: Ways): Page['key'] {
  const { strip, finding, choose } = turning(d);
  const { field, written } = nameField(name);
  const shown = Math.min(d.findings.length, 9);
  const keys: Key[] = [
    ['X', 'save the record', () => saveText(saved.file, saved.text)],
    ['P', d.manner === 'assessed' ? 'print the result sheet' : 'print', () => print()],
    ['Esc', 'drills', () => ways.first()],
    ['?', 'keys', () => list()],
  ];
  const list = () =>
    keysSlip(
      [
        ...(shown > 0 ? [[shown > 1 ? `1 to ${shown}` : '1', 'what went wrong, one by one'] as const] : []),
        ...keys.slice(0, -1).map(([key, does]) => [key, does] as const),
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
    resultSheet(d, written, saved),
    foot('debrief', keys),
  );
  return (key) => {
    if (/^[1-9]$/.test(key) && Number(key) <= shown) return () => choose(Number(key) - 1);
    return keyed(keys, key);
  };
}

function page(
  lent: Lent,
  ways: Ways,
  tell: (rooms: Rooms, progress: (done: number) => void) => Promise<Told | HTMLElement>,
): Page {
  const wait = progressBar('Marking the record');
  const body = h('div', { class: 'page page--debrief' }, h('main', { id: 'main' }, wait.el));
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
    .then((rooms) => tell(rooms, wait.set))
    .then((told) => {
      if (told instanceof HTMLElement) return stop(told);
      const key = fillPage(body, told, ways);
      if (key) made.key = key;
    });
  return made;
}

const NO_RUN = {
  what: 'This browser does not hold that run.',
  why: 'It was removed, or it was worked in another browser.',
  todo: 'Open its record if you saved one.',
};

/** The debrief of a run from the shelf. One that is not over is worked, not debriefed. */
export function debriefPage(lent: Lent, ways: Ways, id: string): Page {
  return page(lent, ways, async (rooms, progress) => {
    const run = lent.runs.load(id);
    if (!run) return troubleNote(NO_RUN);
    if (run.broken !== undefined) return broken(lent, id, run.broken);
    if (run.clock.outcome === undefined) {
      ways.work(id);
      return h('p', {}, 'This drill is not over.');
    }
    const again = await replay(rooms, run, progress);
    if (!again.ok) return refusedRun(lent, run.head, again.errors);
    const { drill, scenario } = again.value;
    const saved = await savedAs(fileName(run.head), rooms.write(drill.record));
    const name = { typed: lent.runs.nameOn(id), keep: (typed: string) => lent.runs.keepName(id, typed) };
    return { debrief: rooms.debrief(drill.record, scenario), saved, name };
  });
}

/** A record from a file is not on the shelf: the name on its sheet goes with the page. */
const UNKEPT: SheetName = { typed: '', keep: () => {} };

/** The debrief of a record from a file. */
export function foreignRecordPage(lent: Lent, ways: Ways, { text, file }: { text: string; file: string }): Page {
  return page(lent, ways, async (rooms) => {
    const read = rooms.read(text, file);
    if (!read.ok) return refusedRecord(read.errors);
    const { header } = read.record;
    const made = rooms.scenario(header.scenario, header.name, header.seed);
    if (!made.ok) return refusedRecord(made.errors, header);
    const saved = await savedAs(file.replace(/\.[^.]*$/, ''), text);
    return { debrief: rooms.debrief(read.record, made.scenario), saved, name: UNKEPT };
  });
}

function broken(lent: Lent, id: string, n: number): HTMLElement {
  const trouble = {
    what: `Entry ${n} of this run’s journal cannot be read.`,
    why: 'A mark is made from the whole record, so there is none without it.',
    todo: 'Save the journal as a file if you want to look into it; nothing of it was removed.',
  };
  return troubleNote(trouble, saveJournal(lent, id));
}
