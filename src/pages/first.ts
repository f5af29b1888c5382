/** The first page: what this is, and what to do now. */
import { cap, h, refill, s } from './dom.ts';
import { drawn, hatchDefs } from './drawing.ts';
import { otherEngine } from './engine.ts';
import { foot, type Key, keyed } from './foot.ts';
import type { DrillInfo, Lent, Settings } from './host.ts';
import { lasting, sinceText } from './hours.ts';
import { type How, howChoice, inManner } from './manner.ts';
import { settingsSlip } from './settings-slip.ts';
import { keysSlip } from './slip.ts';
import { type Stored, storedSlip } from './stored-slip.ts';
import { titleStrip } from './strip.ts';
import { troubleNote } from './trouble.ts';
import type { Page, Ways } from './ways.ts';

const VEHICLE = 'The station: a vehicle with a radio shelter, parked on a dune by the sea, its whip up';
const FORGETFUL = {
  what: 'This browser does not let the trainer keep anything.',
  why: 'A drill is lost if the page is closed or reloaded.',
  todo: 'Allow this site to store data, or finish in one go and save the record at the end.',
};

function picture(lent: Lent): HTMLElement {
  const box = h('figure', { class: 'first__picture first__picture--wait' });
  const isWide = matchMedia('(max-width: 68em)').matches;
  const phone = matchMedia('(max-width: 47.5em)').matches;
  const height = phone ? 335 : isWide ? 300 : 524;
  lent.picture(height).then((strokes) => {
    box.classList.remove('first__picture--wait');
    const view = {
      viewBox: `-1.2 -1.2 614.4 ${height + 2.4}`,
      role: 'img',
      'aria-label': VEHICLE,
      preserveAspectRatio: 'none',
    };
    refill(box, s('svg', view, hatchDefs(), drawn(strokes)));
  });
  return box;
}

function firstFlag(ways: Ways, drill: DrillInfo): HTMLElement {
  return h(
    'button',
    { type: 'button', class: 'flag flag--first flag--go', onclick: () => ways.order(drill.id, 'shown') },
    h(
      'span',
      {},
      h(
        'span',
        {},
        h('strong', {}, 'First traffic'),
        `Guided, no knowledge needed. About ${drill.minutes.novice} minutes.`,
      ),
      cap('Enter'),
    ),
  );
}

function goOnFlag(ways: Ways, { head, clock }: Stored): HTMLElement {
  const other = otherEngine(head);
  return h(
    'button',
    { type: 'button', class: 'flag flag--on', onclick: () => ways.work(head.id) },
    h(
      'span',
      {},
      h('span', { class: 'flag__what' }, h('b', {}, 'Go on: '), `${head.title}, ${lasting(clock.t)} into it`),
      h('span', { class: 'flag__aside' }, sinceText(clock.wall_ms), other && `, begun with ${other}`, cap('L')),
    ),
  );
}

function drillRow(ways: Ways, settings: Settings, drill: DrillInfo, n: number): HTMLElement {
  return h(
    'li',
    {},
    h(
      'button',
      {
        type: 'button',
        class: 'flag',
        onclick: () => ways.order(drill.id, settings.manner),
        'aria-describedby': `about-${n}`,
      },
      h(
        'span',
        {},
        h('span', { class: 'flag__what' }, drill.title),
        h(
          'span',
          { class: 'flag__aside' },
          h('span', { class: 'mono' }, `${drill.minutes.novice} min`),
          h('b', {}, n < 10 && n),
        ),
      ),
    ),
    h('span', { class: 'unseen', id: `about-${n}` }, drill.about),
  );
}

/** The right side of the page: what to do now. */
function doing(lent: Lent, ways: Ways, open: Stored | undefined, settings: Settings): HTMLElement {
  const [first] = lent.drills;
  const choose = ({ manner, seed, given }: How) => {
    settings.manner = manner;
    ways.seed = seed;
    ways.given = given;
    lent.settings.keep({ ...lent.settings.read(), manner });
  };
  return h(
    'div',
    { class: 'first__do' },
    !lent.runs.lasting && troubleNote(FORGETFUL),
    h(
      'div',
      { class: 'first__what' },
      h('h2', {}, 'You are alone in the shelter of the Marram 4.'),
      h(
        'p',
        {},
        'Power it, tune it, pass the traffic, keep the log. Every box works as its physics says, and you can look inside any of them.',
      ),
    ),
    first && firstFlag(ways, first),
    open && goOnFlag(ways, open),
    h(
      'div',
      { class: 'under' },
      h('h2', {}, 'Drills'),
      h('span', {}, lent.drills.length === 1 ? 'one so far' : `${lent.drills.length} in all`),
    ),
    h('ol', { class: 'rack' }, ...lent.drills.map((drill, i) => drillRow(ways, settings, drill, i + 1))),
    howChoice({ manner: settings.manner, seed: ways.seed, given: ways.given }, choose),
  );
}

const keyList = (keys: readonly Key[], open: boolean): void =>
  keysSlip(
    [
      ['Enter', 'First traffic, guided'],
      ...(open ? ([['L', 'go on with the last drill']] as const) : []),
      ['1 to 9', 'a drill of the list, in the manner chosen'],
      ...keys.slice(0, -1).map(([key, does]) => [key, does] as const),
      ['Tab', 'next thing on the page'],
    ],
    'In the shelter, shortcuts sit behind Alt, because there the plain keys belong to the printer and the log.',
  );

/** Builds the page. */
export function firstPage(lent: Lent, ways: Ways): Page {
  const settings = lent.settings.read();
  const runs = lent.runs.list();
  const open = runs.find(({ clock }) => clock.outcome === undefined);
  const [first] = lent.drills;
  ways.seed = inManner({ ...settings, seed: ways.seed, given: ways.given }, settings.manner).seed;
  const keys: Key[] = [
    ['S', 'settings', () => settingsSlip(lent)],
    ['O', 'open a record', () => ways.openRecord()],
    ...(runs.length > 0 ? [['R', 'stored runs', () => storedSlip(lent, ways)] as Key] : []),
    ['?', 'keys', () => keyList(keys, open !== undefined)],
  ];
  const el = h(
    'div',
    { class: 'page page--first' },
    titleStrip(),
    h('main', { class: 'first lies', id: 'main' }, picture(lent), doing(lent, ways, open, settings)),
    foot('practice only: it licenses nobody to transmit', keys),
  );
  const key = (pressed: string): (() => void) | undefined => {
    if (pressed === 'Enter') return first && (() => ways.order(first.id, 'shown'));
    if (pressed === 'l') return open && (() => ways.work(open.head.id));
    const drill = /^[1-9]$/.test(pressed) ? lent.drills[Number(pressed) - 1] : undefined;
    if (drill) return () => ways.order(drill.id, settings.manner);
    return keyed(keys, pressed);
  };
  return { el, title: 'Keydown', key };
}
