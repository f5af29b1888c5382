/** `wav make` and `wav read`: listening exercises as recordings, and any recording as text. */
import { normal, streamOf } from '../core/kernel/dice.ts';
import { type FskSound, makeFskWav, makeMorse, readFsk, readMorse } from '../core/samples/listening.ts';
import { LEAST_SAMPLES } from '../core/samples/tone-evidence.ts';
import { encode } from '../core/telegraphy/ita2.ts';
import { morseText } from '../core/telegraphy/morse.ts';
import { SPEEDS_Bd, STOPS_units } from '../core/telegraphy/startstop.ts';
import { writeOut } from './files.ts';
import { readRecording, wavBytes } from './sound-file.ts';
import {
  type Bounds,
  boundsText,
  numberOf,
  OK,
  oneWord,
  Plain,
  readArgs,
  SEED,
  USAGE,
  type Verb,
  wordOf,
  wrongCall,
} from './verb.ts';

/** Start-stop print and Morse run at any speed; what is in use is told as well. */
const NUMBERS = {
  baud: { min: 10, max: 300, usual: 50, about: 'print: speed, bauds', inUse: SPEEDS_Bd },
  shift: { min: 20, max: 2000, usual: 850, about: 'print: between mark and space, Hz' },
  centre: { min: 50, max: 20_000, usual: 2000, about: 'print: middle of the two tones, Hz' },
  stop: { min: 1, max: 2, usual: 1.5, about: 'print: stop element, units', inUse: STOPS_units },
  wpm: { min: 2, max: 60, usual: 15, about: 'Morse: words a minute (PARIS)' },
  tone: { min: 50, max: 20_000, usual: 700, about: 'Morse: tone, Hz' },
  rate: { min: 2000, max: 192_000, whole: true, usual: 8000, about: 'make: samples a second' },
  ebn0: {
    min: -30,
    max: 100,
    about: 'make: add white noise; energy of one element over one-sided density, dB',
    usual: null,
  },
  seed: { ...SEED, usual: 1, about: 'make: what the noise is thrown with' },
} as const satisfies Record<string, Bounds & { usual: number | null; about: string; inUse?: readonly number[] }>;
type Named = keyof typeof NUMBERS;

const PRINT = ['baud', 'shift', 'centre', 'stop', 'mark', 'no-unshift'] as const;
const MORSE = ['wpm', 'tone'] as const;
const NOISE = ['rate', 'ebn0', 'seed'] as const;

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;
const numbers = (names: readonly Named[]) => Object.fromEntries(names.map((name) => [name, text]));
const CIRCUIT = { ...numbers(['baud', 'shift', 'centre', 'stop', 'wpm', 'tone']), mark: text, 'no-unshift': flag };
const MAKE = { ...CIRCUIT, ...numbers(NOISE), text, morse: text, out: text };
const READ = { ...CIRCUIT, morse: flag };

/** Longest text of an exercise, characters: a little over four hours at 50 Bd. */
const MAX_TEXT = 100_000;

type Values = { readonly [flag: string]: string | boolean | undefined };

/** A flag's number, as usual when it is not given. */
const told = (values: Values, name: Named): number =>
  numberOf(name, String(values[name] ?? NUMBERS[name].usual), NUMBERS[name]);

/** A flag that would change nothing is a slip of whoever gave it. */
function noneOf(values: Values, names: readonly string[], why: string): void {
  const idle = names.find((name) => values[name] !== undefined);
  if (idle !== undefined) throw new Plain(`--${idle} ${why}`, USAGE);
}

function circuit(values: Values): FskSound {
  return {
    baud: told(values, 'baud'),
    shift: told(values, 'shift'),
    sense: `mark ${wordOf('mark', String(values['mark'] ?? 'low'), ['low', 'high'])}`,
    centre: told(values, 'centre'),
    stop_units: told(values, 'stop'),
    unshiftOnSpace: values['no-unshift'] !== true,
  };
}

function noise(values: Values) {
  if (values['ebn0'] === undefined) {
    noneOf(values, ['seed'], 'is of the noise; it wants --ebn0 too');
    return {};
  }
  const seed = told(values, 'seed');
  const stream = streamOf('wav');
  return { added: { ebN0_dB: told(values, 'ebn0'), noise: (i: number) => normal(seed, stream, i) } };
}

/** The words of an exercise: some, not too many, all of them in the alphabet they are sent in. */
function wordsOf(name: 'text' | 'morse', words: string): string {
  if (words.trim() === '' || words.length > MAX_TEXT)
    throw new Plain(
      `--${name} takes 1 to ${MAX_TEXT} characters, got ${words.trim() === '' ? 'none' : words.length}`,
      USAGE,
    );
  const [lacking] = name === 'text' ? encode(words).errors : morseText(words).errors;
  const alphabet = name === 'text' ? 'the five-unit alphabet (ITU-T S.1)' : 'Morse code (ITU-R M.1677-1)';
  if (lacking)
    throw new Plain(
      `--${name}: character ${lacking.at + 1}, ${JSON.stringify(lacking.char)}: expected one of ${alphabet}`,
      USAGE,
    );
  return words;
}

function makePrint(values: Values, rate: number): Float64Array {
  noneOf(values, MORSE, 'is of Morse; --text makes print');
  const sound = circuit(values);
  const { baud = 50 } = sound;
  if (rate < LEAST_SAMPLES * baud)
    throw new Plain(`--baud ${baud} wants --rate ${Math.ceil(LEAST_SAMPLES * baud)} at least, to be read again`, USAGE);
  return makeFskWav({ text: wordsOf('text', String(values['text'])), rate, ...noise(values), ...sound });
}

function makeKeying(values: Values, rate: number): Float64Array {
  noneOf(values, PRINT, 'is of print; --morse makes Morse');
  const [wpm, tone] = [told(values, 'wpm'), told(values, 'tone')];
  return makeMorse({ text: wordsOf('morse', String(values['morse'])), rate, ...noise(values), wpm, tone });
}

function make(args: string[]): number {
  const { values, positionals } = readArgs(args, MAKE);
  const { text: print, morse, out } = values as Values;
  if (positionals.length > 0 || typeof out !== 'string' || (print === undefined) === (morse === undefined))
    throw wrongCall('wav make wants --out and one of --text and --morse', wav.help);
  const rate = told(values, 'rate');
  const samples = within(() => (print === undefined ? makeKeying(values, rate) : makePrint(values, rate)));
  const speed = print === undefined ? `Morse at ${told(values, 'wpm')} wpm` : `print at ${told(values, 'baud')} Bd`;
  const length = Array.from(String(print ?? morse)).length;
  const what = `${(samples.length / rate).toFixed(1)} s, ${length} character${length === 1 ? '' : 's'}, ${speed}`;
  writeOut(out, wavBytes({ samples, rate }), what);
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

function morseOptions(values: Values) {
  noneOf(values, PRINT, 'is of print; --morse reads Morse');
  const given = MORSE.filter((name) => values[name] !== undefined);
  return Object.fromEntries(given.map((name) => [name, told(values, name)]));
}

function read(args: string[]): number {
  const { values, positionals } = readArgs(args, READ);
  const path = oneWord(positionals, 'wav read wants one recording', wav.help);
  const isMorse = (values as Values)['morse'] === true;
  const keying = isMorse ? morseOptions(values) : noneOf(values, MORSE, 'is of Morse; it wants --morse too');
  const print = isMorse ? {} : circuit(values);
  const { samples, rate } = readRecording(path);
  const said = within(() => (keying ? readMorse(samples, rate, keying) : readFsk(samples, rate, print)));
  if (said.trim() === '') {
    const none = isMorse
      ? 'no Morse in it (print is read without --morse)'
      : 'no print in it (Morse is read with --morse)';
    throw new Plain(`${path}: ${none}`);
  }
  process.stdout.write(`${said.replace(/\r/g, '')}\n`);
  return OK;
}

function numberHelp(name: Named): string {
  const { about, usual, ...more } = NUMBERS[name];
  const range = `${boundsText(more)}${'inUse' in more ? ` (in use: ${more.inUse.join(', ')})` : ''}`;
  return `  --${`${name} ${usual ?? 'DB'}`.padEnd(13)} ${about}: ${range}`;
}

/** Recordings made and read. */
export const wav: Verb = {
  help: [
    'keydown wav make --text T | --morse T [options] --out F',
    'keydown wav read F [--morse] [options]',
    '',
    'Make writes a text as print or as Morse into a WAV file; read prints the text of one. Read print with the options it was',
    'made with. Morse is read at any usual speed and tone (300 to 1500 Hz) without being told; --wpm and --tone tell it.',
    '',
    ...(['baud', 'shift', 'centre', 'stop'] as const).map(numberHelp),
    '  --mark low      print: which tone is mark, low or high',
    '  --no-unshift    print: do not fall back to letters at a space',
    ...([...MORSE, ...NOISE] as const).map(numberHelp),
    '',
    'Figures above are the usual ones. Tones must fit the rate, below half of it.',
    `Print wants ${LEAST_SAMPLES} samples an element: a rate of ${50 * LEAST_SAMPLES} for 50 Bd, of ${300 * LEAST_SAMPLES} for 300.`,
    'Read takes 8, 16, 24, 32 bit and float WAV files, any rate from 2000, channels averaged.',
    'Exit 0, 1 for a file that cannot be read or written or in which nothing is found, 2 for a wrong call.',
  ].join('\n'),
  run([what, ...rest]) {
    if (what === 'make') return make(rest);
    if (what === 'read') return read(rest);
    throw wrongCall('wav wants make or read', wav.help);
  },
};
