/** The pages alone, on a made-up core: for looking at them while the rest of the house is being built. */
import { parse } from 'yaml';
import text from '../../../scenarios/first-call.yaml?raw';
import '../../../src/pages/styles.ts';
import type { Drill } from '../../../src/core/drill.ts';
import type { Scenario } from '../../../src/core/scenario/scenario.ts';
import { App } from '../../../src/pages/app.ts';
import type { Lent, Rooms } from '../../../src/pages/host.ts';
import { pictureOps } from '../../../src/panel/props/picture.ts';
import { Runs } from '../../../src/store/runs.ts';
import { keepSettings, readSettings } from '../../../src/store/settings.ts';
import { sampleDebrief } from '../sample-debrief.ts';

function scenarioOf(seed: number): Scenario {
  const made = parse(
    text
      .replaceAll(`$\{cargo}`, 'BLANKETS')
      .replaceAll(`$\{count}`, '85')
      .replaceAll(`$\{closes}`, '1600')
      .replaceAll(`$\{litres}`, '600')
      .replaceAll(`$\{fuel}`, 'DIESEL'),
  );
  const { card } = made.papers;
  card.cells = [...card.rows].map((_: string, i: number) =>
    [...card.columns].map((_c: string, j: number) =>
      String.fromCharCode(65 + ((i * 7 + j * 3 + seed) % 26), 65 + ((i * 11 + j * 5) % 26)),
    ),
  );
  return {
    drawn: {},
    steps: [],
    measures: sampleDebrief.measures.map((m) => ({ ...m, weight: m.of })),
    pass: 80,
    ...made,
  };
}

const fakeDrill = (scenario: Scenario, setting: object): Drill => {
  let now = 0;
  const record = { header: { 'keydown-record': 1, engine: 'dev', ...setting }, lines: [] as object[] };
  return {
    scenario,
    record,
    get now_us() {
      return now;
    },
    ended: false,
    advance(t: number) {
      now = Math.max(now, t);
    },
    act: () => undefined,
    remark: (body: object) => record.lines.push({ t: now, i: record.lines.length + 1, ...body }),
    end() {
      Object.assign(this, { ended: true });
    },
  } as unknown as Drill;
};

const rooms: Rooms = {
  engine: 'dev',
  scenario: (_text, _file, seed) => ({ ok: true, value: scenarioOf(seed) }),
  drill: fakeDrill,
  guide: () => ({ next: () => null }),
  write: (record) => JSON.stringify(record),
  read: (_text, file) => ({
    ok: false,
    errors: [
      {
        code: 'bad-json',
        file,
        line: 3,
        col: 14,
        source: '{"t": 12000, zap',
        caret: '             ^',
        expected: 'a key in double quotes',
      },
    ],
  }),
  debrief: () => ({ ok: true, value: sampleDebrief }),
};

const lent: Lent = {
  drills: [
    {
      id: 'first-call',
      title: 'First traffic to Tern Ness',
      about: 'Bring a cold station up.',
      minutes: { novice: 15, expert: 7 },
    },
  ],
  text: async () => text,
  rooms: async () => rooms,
  runs: new Runs(localStorage, Date.now),
  settings: { read: () => readSettings(localStorage), keep: (settings) => keepSettings(localStorage, settings) },
  picture: async (height) => pictureOps({ x: 0, y: 0, w: 612, h: height, name: 'Marram 4' }),
  panel: async (parent) => {
    const el = document.createElement('p');
    el.textContent = 'the shelter';
    parent.append(el);
    return { close: () => el.remove() };
  },
  sound: async () => ({ close: () => {}, mute: () => {} }),
};

new App(document.getElementById('app') as HTMLElement, lent);
