/** The pages on the real core, with a bare board in place of the shelter: for looking at them and for their tests. `?sample` shows a made-up debrief. */
import drills from 'virtual:scenarios';
import text from '../../../scenarios/first-call.yaml?raw';
import '../../../src/pages/styles.ts';
import { KINDS } from '../../../src/core/catalogue.ts';
import { debrief } from '../../../src/core/debrief/debrief.ts';
import { Drill } from '../../../src/core/drill.ts';
import { Guide } from '../../../src/core/guide/guide.ts';
import { mark } from '../../../src/core/marking/marking.ts';
import { readRecord, writeRecord } from '../../../src/core/record/format.ts';
import { parseScenario } from '../../../src/core/scenario/scenario.ts';
import { App } from '../../../src/pages/app.ts';
import { h } from '../../../src/pages/dom.ts';
import type { Lent, Rooms, Workbench } from '../../../src/pages/host.ts';
import { pictureOps } from '../../../src/panel/props/picture.ts';
import { Runs } from '../../../src/store/runs.ts';
import { keepSettings, readSettings } from '../../../src/store/settings.ts';
import { sampleDebrief } from '../sample-debrief.ts';

const rooms: Rooms = {
  scenario: (yaml, file, seed) => parseScenario(yaml, KINDS, { file, seed }),
  drill: (scenario, setting) => new Drill(scenario, setting),
  guide: (scenario) => new Guide(scenario),
  write: writeRecord,
  read: readRecord,
  debrief: (record, scenario) =>
    location.search.includes('sample') ? sampleDebrief : debrief(record, mark(record, scenario), scenario),
};

/** Clock, last refusal, the step that is due, and one switch. */
async function board(parent: HTMLElement, bench: Workbench): Promise<{ close(): void }> {
  const said = h('output', {});
  const el = h(
    'section',
    { 'aria-label': 'Board', style: 'padding:2rem' },
    h(
      'button',
      { type: 'button', class: 'push', onclick: (e: Event) => bench.act('feed.isolator', true, e.timeStamp) },
      'Isolator on',
    ),
    said,
  );
  const tell = () => {
    const step = bench.guideStep();
    said.textContent = ` ${bench.drill.see('desk.utc')} isolator ${bench.drill.standing('feed.isolator')} ${step ? `now ${step.step.title}` : ''}`;
  };
  parent.append(el);
  tell();
  const stop = bench.onChange(tell);
  return {
    close() {
      stop();
      el.remove();
    },
  };
}

const lent: Lent = {
  drills,
  text: async () => text,
  rooms: async () => rooms,
  runs: new Runs(localStorage, Date.now),
  settings: { read: () => readSettings(localStorage), keep: (settings) => keepSettings(localStorage, settings) },
  picture: async (tall) => pictureOps({ x: 0, y: 0, w: 612, h: tall, name: 'Marram 4' }),
  panel: board,
  sound: async () => ({ close: () => {}, mute: () => {}, onSounding: () => () => {}, sounding: () => [] }),
};

new App(document.getElementById('app') as HTMLElement, lent);
