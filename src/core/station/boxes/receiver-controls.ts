/** The receiver's controls as data. */
import type { Control } from '../box.ts';

/** Bands by their lower end, MHz. */
export const BANDS: readonly string[] = Array.from({ length: 14 }, (_, i) => String(2 * i));

const number = (
  id: string,
  name: string,
  [min, max, step]: readonly [number, number, number],
  unit: string,
  inside: string,
): Control => ({ id, name, face: 'limpet', range: { kind: 'number', min, max, step, unit }, inside });

const plunger = (id: string, name: string, inside: string): Control => ({
  id,
  name,
  face: 'plunger',
  range: { kind: 'switch', words: ['off', 'on'] },
  inside,
});

/** Controls of the receiver, in the order of the panel. */
export const receiverControls: readonly Control[] = [
  plunger(
    'power',
    'Receiver',
    'Switches the receiver on. Its oscillators creep by some tens of hertz while they warm up in the first ten minutes.',
  ),
  {
    id: 'band',
    name: 'Band',
    face: 'limpet',
    range: { kind: 'words', words: BANDS, unit: 'MHz' },
    inside: 'Chooses a band two megahertz wide by its lower end.',
  },
  number(
    'dial',
    'Dial',
    [0, 2000, 1],
    'kHz',
    'Tunes within the band. What the scale says may be several kilohertz from the truth until it is calibrated.',
  ),
  {
    id: 'fine',
    name: 'Fine tuning',
    face: 'fine',
    range: { kind: 'number', min: -5, max: 5, step: 0.005, unit: 'kHz' },
    inside: 'Tunes in steps of five hertz round the dial.',
  },
  number(
    'index',
    'Index',
    [-10, 10, 0.01],
    'kHz',
    'Moves along the scale and leaves the tuning alone: it corrects what the scale says.',
  ),
  number(
    'trim',
    'Aerial trim',
    [0, 10, 0.1],
    '',
    'Tunes the input circuit. The best place moves with the frequency; signals and noise peak there.',
  ),
  number(
    'rfGain',
    'RF gain',
    [0, 10, 0.1],
    '',
    'Amplification ahead of the detector. Too little and the receiver’s own noise covers weak signals; too much without AGC and strong ones distort.',
  ),
  {
    id: 'bandwidth',
    name: 'Bandwidth',
    face: 'limpet',
    range: { kind: 'words', words: ['6', '3', '1.2', '0.5'], unit: 'kHz' },
    inside:
      'Width of what is let through. Speech needs 6 or 3, print with 850 Hz shift 1.2, with less shift 0.5 at the least.',
  },
  {
    id: 'agc',
    name: 'AGC',
    face: 'tiller',
    range: { kind: 'words', words: ['off', 'fast', 'slow'] },
    inside:
      'Keeps the loudness even. After a strong signal, your own included, fast recovers at once, slow only after a second or two. Off leaves everything to the RF gain.',
  },
  plunger(
    'bfo',
    'BFO',
    'An oscillator that beats with a carrier and so makes it heard as a note. Morse needs it, speech suffers from it.',
  ),
  number(
    'pitch',
    'BFO pitch',
    [-3, 3, 0.01],
    'kHz',
    'How far the BFO stands from the middle of the passband. At 0 a carrier is in the middle when its note falls to nothing.',
  ),
  plunger(
    'calibrator',
    'Calibrator',
    'A crystal that puts a carrier on every multiple of 250 kHz. Tune one to zero beat, then bring the index to its round figure.',
  ),
  plunger(
    'limiter',
    'Noise limiter',
    'Cuts off what is louder than the speech. It tames overload and crashes and roughens speech a little.',
  ),
  number('afGain', 'AF gain', [0, 10, 0.1], '', 'Loudness of what is detected.'),
];
