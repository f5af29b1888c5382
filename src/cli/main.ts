/** `npm run -s keydown -- <verb>`: everything that the trainer does, without a browser. */
import { check } from './check.ts';
import { drill } from './drill.ts';
import { explain } from './explain.ts';
import { mark } from './mark.ts';
import { reach } from './reach.ts';
import { OK, Plain, USAGE, type Verb } from './verb.ts';
import { wav } from './wav.ts';

const VERBS: Readonly<Record<string, Verb>> = { check, drill, mark, explain, reach, wav };

const overview = () =>
  `keydown: a trainer for the operator of a radio-teleprinter station\n\n${Object.entries(VERBS)
    .map(([name, v]) => `  ${name.padEnd(8)} ${v.about}`)
    .join('\n')}\n\nkeydown <verb> --help tells more.\n`;

async function main([name, ...args]: string[]): Promise<number> {
  if (name === undefined || name === '--help' || name === 'help') {
    process.stdout.write(overview());
    return name === undefined ? USAGE : OK;
  }
  const verb = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  if (!verb) throw new Plain(`no verb ${name}\n\n${overview()}`, USAGE);
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
    if (process.env['KEYDOWN_TRACE']) console.error(e);
    process.stderr.write(`keydown: ${e instanceof Error ? e.message : String(e)}\n`);
    process.exitCode = e instanceof Plain ? e.exitCode : 3;
  },
);
