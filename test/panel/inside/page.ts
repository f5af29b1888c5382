/** The panel on a drill at one instant, standing still: for pictures of the look inside. The snapshot comes in `window.snapshot`. */
import '@fontsource/b612/latin-400.css';
import '@fontsource/b612/latin-700.css';
import '@fontsource/b612-mono/latin-400.css';
import '@fontsource/b612-mono/latin-700.css';
import '../../../src/pages/inks.css';
import text from '../../../scenarios/first-call.yaml?raw';
import { KINDS } from '../../../src/core/catalogue.ts';
import { Drill, type Snapshot } from '../../../src/core/drill.ts';
import { castScenario, readScenario } from '../../../src/core/scenario/scenario.ts';
import { openPanel, type PanelHost, type Place } from '../../../src/panel/panel.ts';

const query = new URLSearchParams(location.search);
document.documentElement.dataset['theme'] = query.get('theme') ?? 'paper';
const read = readScenario(text, KINDS, 'first-call.yaml');
if (!read.ok) throw new Error(JSON.stringify(read.errors));
const manner = (query.get('manner') ?? 'shown') as PanelHost['manner'];
const setting = { name: 'first-call', scenario: text, seed: 1, manner, stretch: 1 };
const { snapshot } = window as unknown as { snapshot?: string };
const drill = new Drill(
  castScenario(read.source, 1),
  setting,
  snapshot ? (JSON.parse(snapshot) as Snapshot) : undefined,
);
const listeners = new Set<() => void>();
const host: PanelHost = {
  drill,
  manner,
  act: (control, value) => drill.act(control, value),
  onChange(listener) {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
  help: () => {},
};
const panel = await openPanel(document.getElementById('app')!, host);
panel.goTo((query.get('place') ?? 'radio') as Place);
const advance = (ms: number) => {
  drill.advance(drill.now_us + ms * 1000);
  for (const l of listeners) l();
};
Object.assign(window, { bench: { drill, panel, advance } });
document.body.dataset['ready'] = '';
