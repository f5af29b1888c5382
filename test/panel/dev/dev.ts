/**
 * The panel on a real drill without pages or store: for pictures and for trying controls by hand.
 * Query: place, theme, manner, seed, until (the model operator works up to this second), do (a.b=value;seconds;...), clock=manual.
 */
import '@fontsource/b612/latin-400.css';
import '@fontsource/b612/latin-700.css';
import '@fontsource/b612-mono/latin-400.css';
import '@fontsource/b612-mono/latin-700.css';
import '../../../src/pages/inks.css';
import text from '../../../scenarios/first-call.yaml?raw';
import { KINDS } from '../../../src/core/catalogue.ts';
import { Drill } from '../../../src/core/drill.ts';
import { Guide } from '../../../src/core/guide/guide.ts';
import { workThrough } from '../../../src/core/hand/model.ts';
import { parseScenario } from '../../../src/core/scenario/scenario.ts';
import { openPanel, type PanelHost, type Place } from '../../../src/panel/panel.ts';

const query = new URLSearchParams(location.search);
document.documentElement.dataset['theme'] = query.get('theme') ?? 'paper';
const seed = Number(query.get('seed') ?? 7);
const read = parseScenario(text, KINDS, { file: 'first-call.yaml', seed });
if (!read.ok) throw new Error(JSON.stringify(read.errors));
const manner = (query.get('manner') ?? 'shown') as PanelHost['manner'];
const drill = new Drill(read.scenario, { name: 'first-call.yaml', scenario: text, seed, manner, stretch: 1 });
const guide = new Guide(read.scenario);
const listeners = new Set<() => void>();
const isManual = query.get('clock') === 'manual';
const base = { us: 0, ms: performance.now() };
const now = () =>
  isManual ? drill.now_us : Math.max(drill.now_us, base.us + Math.round((performance.now() - base.ms) * 1000));
const tell = () => {
  for (const l of listeners) l();
};

class Enough extends Error {}
const until_us = Number(query.get('until') ?? 0) * 1e6;
if (until_us > 0) {
  const place = Object.assign(Object.create(drill) as Drill, {
    advance(to_us: number) {
      drill.advance(Math.min(to_us, until_us));
      if (to_us >= until_us) throw new Enough();
    },
  });
  try {
    workThrough(read.scenario, place, seed);
  } catch (e) {
    if (!(e instanceof Enough)) console.warn(String(e));
  }
}

/** Acts of the query: `box.control=value`, or a number of seconds to let pass. */
for (const act of (query.get('do') ?? '').split(';').filter(Boolean)) {
  if (/^\d+(\.\d+)?$/.test(act)) {
    drill.advance(drill.now_us + Number(act) * 1e6);
    continue;
  }
  const [name = '', value = ''] = act.split('=');
  const range = drill.control(name)?.range;
  const typed =
    range?.kind === 'number'
      ? Number(value)
      : range?.kind === 'words' || range?.kind === 'text'
        ? value
        : value === 'true';
  const why = drill.act(name, typed);
  if (why) console.warn(name, value, why);
}
base.us = drill.now_us;
base.ms = performance.now();

const host: PanelHost = {
  drill,
  manner,
  act(control, value) {
    drill.advance(now());
    const why = drill.act(control, value);
    requestAnimationFrame(tell);
    return why;
  },
  onChange(listener) {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
  help: () => {},
  guideStep: () => (manner === 'shown' ? guide.next(drill) : null),
};
if (!isManual)
  setInterval(() => {
    drill.advance(now());
    tell();
  }, 50);
const panel = await openPanel(document.getElementById('app')!, host);
panel.goTo((query.get('place') ?? 'shelter') as Place);
const advance = (ms: number) => {
  drill.advance(drill.now_us + ms * 1000);
  tell();
};
Object.assign(window, {
  bench: { drill, panel, advance },
});
document.body.dataset['ready'] = '';
