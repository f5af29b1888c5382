/** What a verb is, and what all verbs share: exit codes, plain errors, reading flags. */
import { type ParseArgsConfig, parseArgs } from 'node:util';
import { meant } from '../core/record/places.ts';

/** One word of the command line. `run` gives the exit code. */
export type Verb = { help: string; run(args: string[]): number | Promise<number> };

/** Done, and what was asked holds. */
export const OK = 0;
/** A file is faulty, or a drill got stuck: the answer is no. */
export const FAULTY = 1;
/** The call's words are off. */
export const USAGE = 2;

/** An error for people: its message is all there is to say. */
export class Plain extends Error {
  constructor(
    message: string,
    readonly exitCode = FAULTY,
  ) {
    super(message);
  }
}

/** Text for a terminal: what a file put into it moves no cursor and changes no colour; lines and tabs stay. */
export const harmless = (text: string): string => text.replace(/[^\P{Cc}\t\n]/gu, '\ufffd');

/** `--ebn0 -5` is what people write; the reader of flags wants `--ebn0=-5`. */
function joined(args: readonly string[]): string[] {
  const out: string[] = [];
  for (const arg of args) {
    const last = out.at(-1) ?? '';
    if (/^-[\d.]/.test(arg) && /^--[\w-]+$/.test(last)) out[out.length - 1] = `${last}=${arg}`;
    else out.push(arg);
  }
  return out;
}

/** What is wrong with flags, in plain words. */
function slip({ code, message }: Error & { code?: string }, known: readonly string[]): string {
  const flag = /'(?:-\w, )?-{1,2}([^' <=]+)/.exec(message)?.[1] ?? '';
  if (code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION')
    return `no option --${flag} here${meant(flag, known)}${known.length > 0 ? ` (options: ${known.map((k) => `--${k}`).join(', ')})` : ''}`;
  if (code === 'ERR_PARSE_ARGS_INVALID_OPTION_VALUE')
    return /does not take/.test(message) ? `--${flag} takes no value` : `--${flag} wants a value`;
  return message;
}

/** Flags and words of a call; a plain usage error for what the verb does not know. */
export function readArgs<T extends NonNullable<ParseArgsConfig['options']>>(args: string[], options: T) {
  try {
    return parseArgs({ args: joined(args), options, allowPositionals: true, strict: true });
  } catch (e) {
    throw new Plain(slip(e as Error & { code?: string }, Object.keys(options)), USAGE);
  }
}

/** What a number may be: bounds, and whether it is whole. */
export type Bounds = { readonly min: number; readonly max: number; readonly whole?: true };

/** Bounds in words, the same in help and errors. */
export const boundsText = ({ min, max, whole }: Bounds): string =>
  `a ${whole ? 'whole ' : ''}number from ${min} to ${max}`;

/** A flag's number; a plain usage error when it is none or out of bounds. */
export function numberOf(flag: string, text: string, bounds: Bounds): number {
  const n = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
  if (!(n >= bounds.min && n <= bounds.max) || (bounds.whole && !Number.isInteger(n)))
    throw new Plain(`--${flag} takes ${boundsText(bounds)}, got ${JSON.stringify(text)}`, USAGE);
  return n;
}

/** A flag's word, one of those given; a plain usage error otherwise. */
export function wordOf<W extends string>(flag: string, text: string, words: readonly W[]): W {
  const word = words.find((w) => w === text);
  if (word === undefined)
    throw new Plain(`--${flag} takes one of ${words.join(', ')}, got ${JSON.stringify(text)}`, USAGE);
  return word;
}

/** A seed, as in a record's header. */
export const SEED: Bounds = { min: 0, max: 0x7fffffff, whole: true };

/** A wrong call, answered with the verb's own help. */
export const wrongCall = (what: string, help: string): Plain => new Plain(`${what}\n\n${help}`, USAGE);

/** The only word of a call. A wrong call without one, or with more. */
export function oneWord(positionals: readonly string[], wants: string, help: string): string {
  const [word] = positionals;
  if (word === undefined || positionals.length > 1) throw wrongCall(wants, help);
  return word;
}
