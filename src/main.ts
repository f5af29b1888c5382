/** The browser's entry: lends the pages what they need, late where it is heavy. */
import './pages/styles.ts';
import drills from 'virtual:scenarios';
import type { Recording } from './core/samples/recording.ts';
import type { WavRead } from './core/samples/wav-bytes.ts';
import { App } from './pages/app.ts';
import type { Rooms } from './pages/host.ts';
import { Runs } from './store/runs.ts';
import { keepSettings, readSettings } from './store/settings.ts';
import { openShelf } from './store/shelf.ts';

// Never inlined: the page's policy lets it fetch from where it came from only.
const sounds = import.meta.glob<string>('../scenarios/*.wav', {
  query: '?url&no-inline',
  import: 'default',
  eager: true,
});
const texts = import.meta.glob<string>('../scenarios/*.yaml', { query: '?raw', import: 'default' });

/** A built recording under its file name. */
async function fetched(
  path: string,
  url: string,
  read: (bytes: Uint8Array) => WavRead,
): Promise<[name: string, recording: Recording]> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`${url}: ${answer.status}`);
  const wav = read(new Uint8Array(await answer.arrayBuffer()));
  if (!wav.ok) throw new Error(`${url}: byte ${wav.at}: expected ${wav.expected}`);
  return [path.slice(path.lastIndexOf('/') + 1), wav.recording];
}

async function openRooms(): Promise<Rooms> {
  const [
    { Drill },
    { KINDS, MEASURES, NAMES },
    { parseScenario },
    { mark },
    { debrief },
    { Guide },
    { readRecord, writeRecord },
    { readWav },
  ] = await Promise.all([
    import('./core/drill.ts'),
    import('./core/catalogue.ts'),
    import('./core/scenario/scenario.ts'),
    import('./core/marking/marking.ts'),
    import('./core/debrief/debrief.ts'),
    import('./core/guide/guide.ts'),
    import('./core/record/format.ts'),
    import('./core/samples/wav-bytes.ts'),
  ]);
  const recordings = new Map(
    await Promise.all(Object.entries(sounds).map(([path, url]) => fetched(path, url, readWav))),
  );
  return {
    scenario: (text, file, seed) => parseScenario(text, KINDS, { file, seed }),
    drill: (scenario, setting) => new Drill(scenario, setting, undefined, recordings),
    guide: (scenario) => new Guide(scenario),
    write: writeRecord,
    read: readRecord,
    debrief: (record, scenario) => debrief(record, mark(record, scenario, MEASURES, NAMES), scenario, NAMES),
  };
}

const { shelf, lasting } = openShelf(() => localStorage);
let rooms: Promise<Rooms> | undefined;

new App(document.getElementById('app') as HTMLElement, {
  drills,
  text: (id) => (texts[`../scenarios/${id}.yaml`] as () => Promise<string>)(),
  rooms: () => (rooms ??= openRooms()),
  runs: new Runs(shelf, Date.now, lasting),
  settings: { read: () => readSettings(shelf), keep: (settings) => keepSettings(shelf, settings) },
  picture: async (h) =>
    (await import('./panel/props/picture.ts')).pictureOps({ x: 0, y: 0, w: 612, h, name: 'Marram 4' }),
  panel: async (parent, bench) => (await import('./panel/panel.ts')).openPanel(parent, bench),
  sound: async (bench) => (await import('./sound/sound.ts')).openSound(bench),
});
