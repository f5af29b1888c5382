/** The page on which a drill is worked: it lends the window to the shelter, and keeps the watch. */
import { type Benched, bench, hold } from './bench.ts';
import { cap, h, refill } from './dom.ts';
import { otherEngine } from './engine.ts';
import type { Lent, Sounding, StoredRun, Trouble } from './host.ts';
import { lengthText } from './hours.ts';
import { progressBar } from './progress.ts';
import { refusedRun, saveJournal } from './refused.ts';
import type { Session } from './session.ts';
import { shortcutsSlip, translate } from './shortcuts.ts';
import { troubleNote } from './trouble.ts';
import { watchSlip } from './watch.ts';
import type { Page, Ways } from './ways.ts';

const GONE: Trouble = {
  what: 'This browser does not hold that run.',
  why: 'It was removed, or it was worked in another browser.',
  todo: 'Begin the drill anew, or open its record if you saved one.',
};
const ELSEWHERE: Trouble = {
  what: 'This drill is open in another window.',
  why: 'Two hands at one station would spoil its record.',
  todo: 'Go on there, or close that window and reload this one.',
};
const BROKEN = (n: number): Trouble => ({
  what: `Entry ${n} of this run’s journal cannot be read.`,
  why: 'What was done from there on cannot be brought back, so the drill would not go on as it was.',
  todo: 'Go on from just before it as a new run; the damaged journal is kept, and you can save it as a file.',
});

/** The parts of the page, and what must be undone when it is left, last first. */
type Stage = {
  lent: Lent;
  ways: Ways;
  id: string;
  el: HTMLElement;
  shelter: HTMLElement;
  bar: HTMLElement;
  notes: HTMLElement;
  name: HTMLElement;
  closing: (() => void)[];
  closed: boolean;
};

/** Builds the page; the run and the shelter arrive after it. */
export function workPage(lent: Lent, ways: Ways, id: string): Page {
  const shelter = h('main', { class: 'work__shelter', id: 'main' });
  const bar = h('nav', { class: 'work__bar', 'aria-label': 'Watch' });
  const notes = h('div', { class: 'work__notes', 'aria-live': 'polite' });
  const name = h('h1', {}, 'Drill');
  const el = h('div', { class: 'work' }, h('header', { class: 'unseen' }, name), shelter, notes, bar);
  const stage: Stage = { lent, ways, id, el, shelter, bar, notes, name, closing: [], closed: false };
  const close = () => {
    stage.closed = true;
    for (const each of stage.closing.reverse()) each();
  };
  open(stage);
  return { el, title: 'Keydown', close };
}

function stopWith({ name, shelter }: Stage, note: HTMLElement): void {
  name.textContent = 'The drill cannot go on';
  refill(shelter, h('div', { class: 'page' }, h('h2', {}, 'The drill cannot go on'), note));
}

const back = ({ ways }: Stage): HTMLElement =>
  h('button', { type: 'button', class: 'push', onclick: () => ways.first() }, 'To the first page');

const stopFor = (stage: Stage, trouble: Trouble): void =>
  stopWith(stage, troubleNote(trouble, h('div', { class: 'slip__foot' }, back(stage))));

function stopBroken(stage: Stage, run: StoredRun, n: number): void {
  const { lent, ways, id } = stage;
  const go = () => ways.work(lent.runs.salvage(run).id);
  const doing = h(
    'div',
    { class: 'slip__foot' },
    h('button', { type: 'button', class: 'push push--first', onclick: go }, 'Go on from before it'),
    saveJournal(lent, id),
    back(stage),
  );
  stopWith(stage, troubleNote(BROKEN(n), doing));
}

async function open(stage: Stage): Promise<void> {
  const { lent, ways, id, closing } = stage;
  const run = lent.runs.load(id);
  if (!run) return stopFor(stage, GONE);
  if (run.clock.outcome !== undefined) return ways.debrief(id);
  if (run.broken !== undefined) return stopBroken(stage, run, run.broken);
  const held = await hold(id);
  if (!held) return stopFor(stage, ELSEWHERE);
  if (stage.closed) return held.free();
  closing.push(held.free);
  await begin(stage, run);
}

async function begin(stage: Stage, run: StoredRun): Promise<void> {
  const { lent, shelter, name, closing } = stage;
  const loading = progressBar(run.clock.t > 0 ? 'Bringing the drill back to where it was' : 'Building the station');
  refill(shelter, loading.el);
  const read = await bench(lent, run, loading.set);
  if (stage.closed) return;
  if (!read.ok) return stopWith(stage, refusedRun(lent, run.head, read.errors, back(stage)));
  loading.say('Hanging the boxes in the shelter');
  const { session } = read.value;
  name.textContent = session.title;
  document.title = `${session.title} - Keydown`;
  closing.push(() => session.close());
  const shown = await lent.panel(shelter, session).catch(() => undefined);
  if (stage.closed) return shown?.close();
  if (!shown) return stopFor(stage, NO_PANEL);
  loading.el.remove();
  closing.push(() => shown.close());
  watch(stage, read.value);
}

function watch({ lent, ways, id, el, bar, notes, closing }: Stage, { session }: Benched): void {
  const other = otherEngine(session.head);
  if (other !== undefined)
    note(
      notes,
      `Begun with ${other}: all you did was worked again by this version, so small things may differ. The record says so.`,
    );
  const words = h('p', { class: 'work__words' });
  el.append(words);
  const sound = soundOf(lent, session, words, closing);
  closing.push(keepWatch(lent, session, notes, () => ways.debrief(id)));
  const opened = () => watchSlip(lent, ways, session, sound);
  const help = () => void session.askHelp();
  const prompted = session.manner === 'prompted';
  refill(
    bar,
    h('button', { type: 'button', class: 'push work__watch', onclick: opened }, 'Watch', cap('Alt W')),
    prompted && h('button', { type: 'button', class: 'push work__help', onclick: help }, 'Help', cap('Alt H')),
  );
  const keyed = (event: KeyboardEvent) => {
    if (!event.altKey || event.repeat || event.ctrlKey || event.metaKey || document.querySelector('dialog[open]'))
      return;
    if (event.code === 'KeyW') opened();
    else if (event.code === 'KeyK') shortcutsSlip(lent);
    else if (event.code === 'KeyH' && prompted) help();
    else return;
    event.preventDefault();
  };
  addEventListener('keydown', keyed);
  closing.push(translate(lent), () => removeEventListener('keydown', keyed));
}

const NO_PANEL: Trouble = {
  what: 'The shelter could not be drawn.',
  why: 'Part of the program did not arrive; nothing of the drill is lost.',
  todo: 'Look to the connection, then reload this page: the drill goes on where it was.',
};

/** Lets the loudspeaker sound, or writes what would sound; the answer switches between the two. */
function soundOf(lent: Lent, session: Session, words: HTMLElement, closing: (() => void)[]): (on: boolean) => void {
  let isOn = lent.settings.read().sound;
  let sound: Sounding | undefined;
  const tell = () => {
    words.textContent = isOn ? '' : (sound?.sounding().join(', ') ?? '');
  };
  const turn = (on: boolean) => {
    isOn = on;
    sound?.mute(!on);
    tell();
  };
  lent.sound(session).then(
    (opened) => {
      sound = opened;
      closing.push(opened.onSounding(tell), () => opened.close());
      turn(isOn);
    },
    () => {
      // Speech and print are written out by the shelter: a drill without sound is a whole drill.
    },
  );
  return turn;
}

/** Sets the clock going, stops it while the page cannot be seen, tells of steps and troubles, and of the end. */
function keepWatch(lent: Lent, session: Session, notes: HTMLElement, ended: () => void): () => void {
  let step = -1;
  let hidden_ms = 0;
  let troubled = false;
  const changed = () => {
    if (session.drill.ended) return ended();
    const now = session.guideStep();
    if (now && now.index !== step) {
      step = now.index;
      refill(said, `Now, step ${now.index + 1} of ${now.of}: ${now.step.title}. ${now.tip}`);
    }
    const { problem } = lent.runs;
    if (problem && !troubled) notes.append(troubleNote(problem));
    troubled = problem !== undefined;
  };
  const said = h('p', { class: 'unseen' });
  notes.append(said);
  const seen = () => {
    if (document.hidden) {
      hidden_ms = Date.now();
      session.stop('hidden');
    } else if (session.manner === 'assessed' || !document.querySelector('dialog[open]')) {
      session.go();
      if (hidden_ms)
        note(
          notes,
          `You were away ${lengthText(Date.now() - hidden_ms)}. The drill’s clock stood meanwhile; the record says so.`,
        );
    }
  };
  const leave = () => session.stop('closed');
  document.addEventListener('visibilitychange', seen);
  addEventListener('pagehide', leave);
  addEventListener('pageshow', seen);
  const unlisten = session.onChange(changed);
  seen();
  return () => {
    unlisten();
    document.removeEventListener('visibilitychange', seen);
    removeEventListener('pagehide', leave);
    removeEventListener('pageshow', seen);
  };
}

/** A note that goes by itself. */
function note(notes: HTMLElement, text: string): void {
  const el = h('p', { class: 'work__note' }, text);
  notes.append(el);
  setTimeout(() => el.remove(), 8000);
}
