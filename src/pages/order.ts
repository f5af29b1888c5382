/** The order, the cautions, and only then the start. */
import { ENGINE, type Manner } from '../core/record/record.ts';
import type { Scenario } from '../core/scenario/scenario.ts';
import { cap, h, refill } from './dom.ts';
import { foot, type Key, keyed } from './foot.ts';
import type { DrillInfo, Lent, Rooms, Trouble } from './host.ts';
import { anotherDraw, type How, howChoice } from './manner.ts';
import { cautions, measures, orderSheet, papers } from './order-sheet.ts';
import { keysSlip } from './slip.ts';
import { locatedNote } from './trouble.ts';
import type { Page, Ways } from './ways.ts';

const says = (manner: Manner): string => `Manner: ${manner}.`;

/** The flag that starts the drill, and what its second line says. */
function startFlag(how: How, go: () => void): { start: HTMLButtonElement; tell(how: How): void } {
  const manner = h('span', { class: 'order__manner' }, says(how.manner));
  const start = h(
    'button',
    { type: 'button', class: 'flag flag--first flag--go', disabled: true, onclick: go },
    h('span', {}, h('span', {}, h('strong', {}, 'Start'), manner), cap('Enter')),
  );
  return { start, tell: (now) => refill(manner, says(now.manner)) };
}

/** Puts the run of a scenario on the shelf. The draw is used up then: an assessed drill's must not come twice by itself. */
function beginRun(
  lent: Lent,
  ways: Ways,
  drill: DrillInfo,
  how: How,
  at: { rooms: Rooms; text: string; title: string },
) {
  const { manner, seed } = how;
  const { stretch } = lent.settings.read();
  const about = { name: `${drill.id}.yaml`, scenario: at.text, seed, manner, stretch, engine: ENGINE, title: at.title };
  ways.given = false;
  if (manner === 'assessed') ways.seed = anotherDraw();
  ways.work(lent.runs.begin(about).id);
}

const FAULTY: Trouble = {
  what: 'This drill’s file has errors.',
  why: 'Nothing of it was loaded, so it cannot be worked.',
  todo: 'Mend the file at the places below.',
};

/** Builds the page; its sheet arrives with the scenario, and anew with every other draw. */
export function orderPage(lent: Lent, ways: Ways, drill: DrillInfo, begun: How): Page {
  let how = begun;
  let begin: (() => void) | undefined;
  const sheet = h('div', { class: 'order__main lies' }, h('p', { role: 'status' }, 'Fetching the order ...'));
  const below = h('div', { class: 'order__below' });
  const { start, tell } = startFlag(how, () => begin?.());
  const choice = howChoice(how, (now) => {
    const redrawn = now.seed !== how.seed;
    how = now;
    tell(how);
    lent.settings.keep({ ...lent.settings.read(), manner: how.manner });
    ways.ordered(drill.id, how);
    if (redrawn) show();
  });
  const shown = (rooms: Rooms, text: string, { title }: Scenario) => {
    start.disabled = false;
    begin = () => beginRun(lent, ways, drill, how, { rooms, text, title });
  };
  const show = async () => {
    const [text, rooms] = await Promise.all([lent.text(drill.id), lent.rooms()]);
    const read = rooms.scenario(text, `${drill.id}.yaml`, how.seed);
    start.disabled = true;
    begin = undefined;
    if (!read.ok) return refill(sheet, locatedNote(FAULTY, read.errors));
    refill(sheet, orderSheet(read.scenario));
    refill(below, papers(read.scenario), measures(read.scenario));
    shown(rooms, text, read.scenario);
  };
  show();
  const keys: Key[] = [
    ['Esc', 'drills', () => ways.first()],
    ['?', 'keys', () => list()],
  ];
  const list = () =>
    keysSlip(
      [
        ['Enter', 'start the drill'],
        ['Esc', 'back to the drills'],
      ],
      'In the shelter, shortcuts sit behind Alt.',
    );
  const el = h(
    'div',
    { class: 'page page--order' },
    h(
      'main',
      { class: 'order', id: 'main' },
      sheet,
      h('div', { class: 'order__side lies' }, cautions(), choice, start),
      below,
    ),
    foot('order', keys),
  );
  const key: Page['key'] = (pressed) => (pressed === 'Enter' ? () => begin?.() : keyed(keys, pressed));
  return { el, title: `${drill.title} - Keydown`, key };
}
