/** `npm run -s keydown -- <verb>`: everything that the trainer does, without a browser. */
import { meant } from '../core/record/places.ts';
import { ENGINE } from '../core/record/record.ts';
import { harmless, OK, Plain, USAGE, type Verb } from './verb.ts';

/** Each verb is loaded only when it is called: a recording needs no station. */
const VERBS: Readonly<Record<string, { about: string; load(): Promise<Verb> }>> = {
  check: {
    about: 'check scenario files against the schema and the station',
    load: async () => (await import('./check.ts')).check,
  },
  drill: {
    about: 'work a drill headless, by a hand script or the model operator',
    load: async () => (await import('./drill.ts')).drill,
  },
  station: {
    about: 'list controls and indicators by the names that scripts and scenarios use',
    load: async () => (await import('./station.ts')).station,
  },
  mark: { about: 'mark a record', load: async () => (await import('./mark.ts')).mark },
  explain: { about: 'the debrief of a record, as text', load: async () => (await import('./explain.ts')).explain },
  reach: {
    about: 'ask the physics: ground wave, sky wave, noise, whip, ionosphere',
    load: async () => (await import('./reach.ts')).reach,
  },
  wav: { about: 'make a recording of print or Morse, or read one', load: async () => (await import('./wav.ts')).wav },
};

const overview = () =>
  `keydown: a trainer for the operator of a radio-teleprinter station\n\n${Object.entries(VERBS)
    .map(([name, v]) => `  ${name.padEnd(8)} ${v.about}`)
    .join('\n')}\n\nkeydown <verb> --help tells more, keydown --version which engine this is.`;

const isHelp = (word: string): boolean => word === '--help' || word === '-h';

/** What `--help` asks for, in any of its places: of a verb, or of all. */
function asksHelp([name, ...args]: string[]): string | true | undefined {
  if (name === undefined) return undefined;
  if (isHelp(name) || name === 'help') return args[0] ?? true;
  return args.some(isHelp) ? name : undefined;
}

async function verbOf(name: string): Promise<Verb> {
  const entry = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  if (!entry)
    throw new Plain(`no verb ${JSON.stringify(name)}${meant(name, Object.keys(VERBS))}\n\n${overview()}`, USAGE);
  return entry.load();
}

async function main(words: string[]): Promise<number> {
  const [name, ...args] = words;
  if (name === undefined) throw new Plain(`a verb is wanted\n\n${overview()}`, USAGE);
  const asked = asksHelp(words);
  if (asked === undefined && name !== '--version') return (await verbOf(name)).run(args);
  if (asked === undefined) process.stdout.write(`${ENGINE}\n`);
  else process.stdout.write(asked === true ? `${overview()}\n` : `${(await verbOf(asked)).help}\n`);
  return OK;
}

// A reader that stops early (`| head`) is no fault of ours.
process.stdout.on('error', (e: NodeJS.ErrnoException) => process.exit(e.code === 'EPIPE' ? OK : 1));
main(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code;
  },
  (e: unknown) => {
    process.stderr.write(harmless(`keydown: ${e instanceof Error ? e.message : String(e)}\n`));
    process.exitCode = e instanceof Plain ? e.exitCode : 3;
  },
);
