/** `wav make` and `wav read`: listening exercises as recordings, and any recording as text. */
import { normal, streamOf } from '../core/kernel/dice.ts';
import { type FskSound, makeFskWav, makeMorse, readFsk, readMorse } from '../core/samples/listening.ts';
import { encode } from '../core/telegraphy/ita2.ts';
import { readRecording, writeRecording } from './sound-file.ts';
import { OK, Plain, readArgs, USAGE, type Verb, wholeNumber } from './verb.ts';

const OPTIONS = {
  text: { type: 'string' },
  morse: { type: 'string' },
  baud: { type: 'string', default: '50' },
  shift: { type: 'string', default: '850' },
  mark: { type: 'string', default: 'low' },
  centre: { type: 'string', default: '2000' },
  stop: { type: 'string', default: '1.5' },
  wpm: { type: 'string', default: '15' },
  tone: { type: 'string', default: '700' },
  ebn0: { type: 'string' },
  seed: { type: 'string', default: '1' },
  rate: { type: 'string', default: '8000' },
  'no-unshift': { type: 'boolean', default: false },
  out: { type: 'string' },
} as const;

/** Longest text of an exercise, characters: a little over four hours at 50 Bd. */
const MAX_TEXT = 100_000;

type Values = { [K in keyof typeof OPTIONS]?: string | boolean };

function numberOf(values: Values, flag: keyof typeof OPTIONS, min: number, max: number): number {
  const n = Number(values[flag]);
  if (values[flag] === '' || !(n >= min && n <= max))
    throw new Plain(`--${flag} takes a number from ${min} to ${max}, got ${values[flag]}`, USAGE);
  return n;
}

function circuit(values: Values): FskSound {
  if (values.mark !== 'low' && values.mark !== 'high')
    throw new Plain(`--mark takes low or high, got ${values.mark}`, USAGE);
  return {
    baud: numberOf(values, 'baud', 10, 300),
    shift: numberOf(values, 'shift', 20, 2000),
    sense: `mark ${values.mark}`,
    centre: numberOf(values, 'centre', 50, 100_000),
    stop_units: numberOf(values, 'stop', 1, 2),
    unshiftOnSpace: values['no-unshift'] !== true,
  };
}

function noise(values: Values) {
  if (values.ebn0 === undefined) return {};
  const seed = wholeNumber('seed', String(values.seed), 0, 0x7fffffff);
  const stream = streamOf('wav');
  return { added: { ebN0_dB: numberOf(values, 'ebn0', -30, 100), noise: (i: number) => normal(seed, stream, i) } };
}

function make(values: Values): number {
  const { text, morse, out } = values;
  if (typeof out !== 'string' || (text === undefined) === (morse === undefined))
    throw new Plain('wav make wants --out and one of --text and --morse', USAGE);
  const words = String(text ?? morse);
  if (words.length > MAX_TEXT) throw new Plain(`at most ${MAX_TEXT} characters of text`, USAGE);
  const rate = wholeNumber('rate', String(values.rate), 2000, 192_000);
  const options = { text: words, rate, ...noise(values) };
  if (text !== undefined) {
    const [lacking] = encode(words).errors;
    if (lacking)
      throw new Plain(
        `--text: character ${lacking.at + 1}, ${JSON.stringify(lacking.char)}: expected one of the five-unit alphabet (ITU-T S.1)`,
        USAGE,
      );
  }
  const samples = within(() =>
    text === undefined
      ? makeMorse({ ...options, wpm: numberOf(values, 'wpm', 2, 60), tone: numberOf(values, 'tone', 50, 20_000) })
      : makeFskWav({ ...options, ...circuit(values) }),
  );
  writeRecording(out, { samples, rate });
  return OK;
}

/** A combination that the rooms below refuse is a wrong call. */
function within<T>(work: () => T): T {
  try {
    return work();
  } catch (e) {
    throw e instanceof RangeError ? new Plain(e.message, USAGE) : e;
  }
}

function read(path: string, values: Values, isMorse: boolean): number {
  const { samples, rate } = readRecording(path);
  const text = within(() => (isMorse ? readMorse(samples, rate) : readFsk(samples, rate, circuit(values))));
  process.stdout.write(`${text.replace(/\r/g, '')}\n`);
  return OK;
}

/** Recordings made and read. */
export const wav: Verb = {
  help: [
    'keydown wav make --text T | --morse T [options] --out F',
    'keydown wav read F [options] [--morse]',
    '',
    '  --baud 50        bauds: 45.45, 50, 56.9, 74.2, 75, 100',
    '  --shift 850      between mark and space, Hz',
    '  --mark low       which tone is mark: low or high',
    '  --centre 2000    middle of the two tones, Hz',
    '  --stop 1.5       stop element, units: 1, 1.42, 1.5',
    '  --no-unshift     do not fall back to letters at a space',
    '  --wpm 15         Morse: words a minute (PARIS)',
    '  --tone 700       Morse: tone, Hz',
    '  --ebn0 DB        add white noise: energy of one element over one-sided density, dB',
    '  --seed 1         what the noise is thrown with',
    '  --rate 8000      samples a second',
    '',
    'Read takes 8, 16, 24, 32 bit and float WAV files, any rate from 2000, channels averaged. Exit 0, 1 for a file that cannot be read, 2 for a wrong call.',
  ].join('\n'),
  run([what, ...rest]) {
    // `read F --morse` takes no text, `make --morse T` does.
    const isMorse = what === 'read' && rest.includes('--morse');
    const { values, positionals } = readArgs(isMorse ? rest.filter((a) => a !== '--morse') : rest, OPTIONS);
    const [path] = positionals;
    if (what === 'make' && path === undefined) return make(values);
    if (what === 'read' && path !== undefined && positionals.length === 1) return read(path, values, isMorse);
    throw new Plain(`wav wants make or read\n\n${wav.help}`, USAGE);
  },
};
