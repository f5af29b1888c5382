/** `npm run -s keydown -- <verb>`: everything that the trainer does, without a browser. */
import { OK, Plain, USAGE, type Verb } from './verb.ts';

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
    .join('\n')}\n\nkeydown <verb> --help tells more.\n`;

async function main([name, ...args]: string[]): Promise<number> {
  if (name === undefined || name === '--help' || name === 'help') {
    process.stdout.write(overview());
    return name === undefined ? USAGE : OK;
  }
  const entry = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  if (!entry) throw new Plain(`no verb ${name}\n\n${overview()}`, USAGE);
  const verb = await entry.load();
  if (args.includes('--help')) {
    process.stdout.write(`${verb.help}\n`);
    return OK;
  }
  return verb.run(args);
}

// A reader that stops early (`| head`) is no fault of ours.
process.stdout.on('error', (e: NodeJS.ErrnoException) => process.exit(e.code === 'EPIPE' ? OK : 1));
main(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code;
  },
  (e: unknown) => {
    process.stderr.write(`keydown: ${e instanceof Error ? e.message : String(e)}\n`);
    process.exitCode = e instanceof Plain ? e.exitCode : 3;
  },
);
