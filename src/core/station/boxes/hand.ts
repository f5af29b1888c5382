/** Hand key, microphone and what goes over the ears: the operator's own hand, mouth and hearing. */
import { setup } from 'xstate';
import { prune } from '../../kernel/history.ts';
import type { Edge, SpokenWord } from '../../signals.ts';
import { spokenWords, WORD_US } from '../../telegraphy/speaking.ts';
import { atRest, type Bench, type Box, type BoxState, type Control } from '../box.ts';
import { put } from '../wave.ts';
import type { Wires } from '../wires.ts';

const KEPT_us = 4_000_000;

/** State of the hand. */
export type HandState = BoxState & { key: Edge[]; words: SpokenWord[] };

const controls: readonly Control[] = [
  {
    id: 'key',
    name: 'Hand key',
    face: 'key',
    range: { kind: 'press' },
    inside: 'Closes the keying line while held. With the sender on A1A the carrier stands while the key is down.',
  },
  {
    id: 'talk',
    name: 'Press to talk',
    face: 'microphone',
    range: { kind: 'press' },
    inside:
      'Opens the microphone while held. With voice set at the sender the carrier stands for as long as this is held.',
    caution:
      'A held switch puts power on the whip. Nobody may touch whip or foot then; local codes and licensed people decide.',
  },
  {
    id: 'say',
    name: 'Say',
    face: 'writing',
    range: {
      kind: 'text',
      max: 300,
      allowed: 'letters A to Z, figures, spaces, stops and dashes',
      only: /^[A-Za-z0-9 .,;:?!/'’…–—-]*$/,
    },
    inside:
      'Words spoken into the open microphone, 0.4 seconds each; a call sign is spelled, a word a letter. Letting the switch go cuts off what is not yet said.',
  },
  {
    id: 'phones',
    name: 'Headset volume',
    face: 'limpet',
    range: { kind: 'number', min: 0, max: 10, step: 1, unit: '' },
    inside: 'Volume of the headset. At 0 the headset is silent.',
    caution: 'Loud sound harms hearing: begin low.',
  },
  {
    id: 'speaker',
    name: 'Loudspeaker',
    face: 'plunger',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside: 'Lets the whole shelter hear what the receiver brings.',
  },
];

const machine = setup({ types: {} as { events: { type: 'PRESS' } | { type: 'LET_GO' } } }).createMachine({
  id: 'hand',
  initial: 'quiet',
  states: { quiet: { on: { PRESS: 'talking' } }, talking: { on: { LET_GO: 'quiet' } } },
});

function say(s: HandState, text: string, now_us: number): string | undefined {
  if (!s.set['talk']) return 'press to talk first';
  const words = spokenWords(text);
  if (words.length === 0) return 'nothing to say';
  let t = Math.max(now_us, s.words[s.words.length - 1]?.t1_us ?? 0);
  for (const word of words) {
    s.words.push({ t0_us: t, t1_us: t + WORD_US, word, by: 'voice' });
    t += WORD_US;
  }
  return undefined;
}

function talk(s: HandState, isHeld: boolean, bench: Bench): void {
  if (!isHeld) s.words = s.words.filter((w) => w.t1_us <= bench.now_us);
  bench.fire(isHeld ? 'PRESS' : 'LET_GO');
}

/** The hand box. */
export const hand = {
  id: 'hand',
  name: 'Hand key, microphone, headset',
  bay: 'messages',
  about: 'The hand key for Morse, the microphone with its press-to-talk switch, and the headset and loudspeaker.',
  source:
    'Speaking rate: common practice for dictation over radio. Keying: ITU-R M.1677-1 describes the signs, the hand makes them.',
  controls,
  indicators: [
    {
      id: 'heard',
      name: 'Heard',
      face: 'caption',
      shows: 'list',
      read: (_s: HandState, w: Wires) => w.captions.map((c) => ({ ...c })),
    },
    {
      id: 'saying',
      name: 'Saying',
      face: 'window',
      read: (s: HandState, _w: Wires, now_us: number) =>
        s.words
          .filter((x) => x.t1_us > now_us)
          .map((x) => x.word)
          .join(' '),
    },
    { id: 'lampTalk', name: 'Microphone open', face: 'lamp', read: (s: HandState) => s.set['talk'] === true },
  ],
  sampled: [],
  machine,
  inner: {},
  start: (found) => ({
    mode: '',
    set: atRest(controls, found),
    key: [{ t_us: 0, mark: false }],
    words: [],
  }),
  turn(s, control, value, _w, bench) {
    if (control === 'key') put(s.key, bench.now_us, value === true);
    if (control === 'talk') talk(s, value === true, bench);
    return control === 'say' ? say(s, String(value), bench.now_us) : undefined;
  },
  settle(s, w) {
    w.handKey = s.key;
    w.talking = s.set['talk'] === true;
    w.words = s.words;
    w.ears.phones = Number(s.set['phones']);
    w.ears.speaker = s.set['speaker'] === true;
  },
  tick(s, _w, _dt, bench) {
    prune(s.key, bench.now_us - KEPT_us);
    if (s.words[0] && s.words[0].t1_us < bench.now_us - KEPT_us)
      s.words = s.words.filter((x) => x.t1_us >= bench.now_us - KEPT_us);
  },
} satisfies Box<HandState>;
