/** The sender's controls as data. */
import { COIL_MAX_UH, LOADING_MAX_PF } from '../../physics/match-motors.ts';
import type { Control } from '../box.ts';
import { KHZ_MAX, KHZ_MIN } from './sender-match.ts';

/** Stored settings by the name of their position. */
export const SETTINGS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'] as const;

const LIVE_WHIP =
  'While it radiates the whip’s foot and coil carry up to thousands of volts: a touch burns. Guard on, people clear; local codes, the manual and licensed people decide.';
const INSIDE_HT =
  'High tension inside the box can kill even after switching off. Only qualified people open it, by the equipment’s manual.';

/** In the order of the panel. */
export const SENDER_CONTROLS: readonly Control[] = [
  {
    id: 'readiness',
    name: 'readiness',
    face: 'tiller',
    range: { kind: 'words', words: ['off', 'heat', 'wait', 'send'] },
    inside:
      'Heat warms the valves, which takes 45 seconds. Wait adds the drive stages, which need 3 seconds; high tension stays off. Send adds the high tension. After send let the valves cool for 30 seconds at wait or heat before off.',
    caution: INSIDE_HT,
  },
  {
    id: 'emission',
    name: 'emission',
    face: 'limpet',
    range: { kind: 'words', words: ['N0N', 'A1A', 'A3E', 'F1B', 'A3E+F1B'] },
    inside:
      'Chooses what is done to the carrier: nothing, Morse by the hand key, voice by amplitude, print by frequency, or voice and print together. Morse and print cannot share a carrier, because Morse takes it away.',
  },
  {
    id: 'frequency',
    name: 'frequency',
    face: 'drums',
    range: { kind: 'number', min: KHZ_MIN, max: KHZ_MAX, step: 0.1, unit: 'kHz' },
    inside:
      'Sets the carrier. In print the carrier set lies in the middle between mark and space. A new frequency wants a new match.',
  },
  {
    id: 'setting',
    name: 'stored setting',
    face: 'pins',
    range: { kind: 'words', words: ['hand', ...SETTINGS] },
    inside:
      'At a number the motors drive frequency, coil and loading to what was stored there, in up to 8 seconds; the sender is silent meanwhile. At hand nothing moves. On other ground a stored match may be a little off: read the power back.',
  },
  {
    id: 'keep',
    name: 'keep',
    face: 'push',
    range: { kind: 'press' },
    inside: 'Stores the present frequency and match in the chosen setting.',
  },
  {
    id: 'seek',
    name: 'seek',
    face: 'push',
    range: { kind: 'press' },
    inside:
      'The sender keys a carrier of a few watts and a servo turns coil and loading until little comes back. It can fail when the whip is wrong; then match by hand.',
    caution: LIVE_WHIP,
  },
  {
    id: 'coil',
    name: 'whip coil',
    face: 'limpet',
    range: { kind: 'number', min: 0, max: COIL_MAX_UH, step: 0.05, unit: 'uH' },
    inside:
      'A coil in series with the whip cancels the reactance of a whip that is too short. The lower the frequency, the more of it.',
  },
  {
    id: 'loading',
    name: 'loading',
    face: 'limpet',
    range: { kind: 'number', min: 0, max: LOADING_MAX_PF, step: 5, unit: 'pF' },
    inside: 'A capacitor to earth that brings the resistance of the whip to the 50 ohm that the sender wants.',
  },
  {
    id: 'side',
    name: 'side',
    face: 'tiller',
    range: { kind: 'words', words: ['sender', 'whip'] },
    inside:
      'Hangs the loading on the sender’s end of the coil, right for a short whip, or on the whip’s end, right above about 14 MHz where the whole whip is near a quarter wave.',
  },
  {
    id: 'power',
    name: 'power',
    face: 'tiller',
    range: { kind: 'words', words: ['low', 'full'] },
    inside: 'Low gives 15 W, full 120 W. Match at low; the valves trip when over 25 W come back for 3 seconds.',
    caution: LIVE_WHIP,
  },
  {
    id: 'meter',
    name: 'small meter',
    face: 'limpet',
    range: { kind: 'words', words: ['volts', 'heat'] },
    inside: 'The small meter shows the supply in volts, or the heat of the output stage as a share of what trips it.',
  },
  {
    id: 'cage',
    name: 'cage of the test carrier',
    face: 'plunger',
    range: { kind: 'switch', words: ['shut', 'open'] },
    inside: 'A wire cage over the push of the test carrier, against a careless hand. The push works while it is open.',
  },
  {
    id: 'carrier',
    name: 'test carrier',
    face: 'caged',
    range: { kind: 'press' },
    inside:
      'With emission N0N: a carrier without modulation while pressed, at most 5 seconds. Listen on the frequency first.',
    caution: LIVE_WHIP,
  },
  {
    id: 'filter',
    name: 'cooling filter',
    face: 'tiller',
    range: { kind: 'switch', words: ['out', 'in'] },
    inside:
      'Holds the dust back from the cooling air. Take it out to clean it daily; without it the air goes past the valves and the sender overheats.',
  },
  {
    id: 'clean',
    name: 'clean the filter',
    face: 'push',
    range: { kind: 'press' },
    inside: 'Beats and washes the filter. It must be out of the sender.',
  },
  {
    id: 'fan',
    name: 'fan',
    face: 'plunger',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside: 'Drives air through the filter past the valves. Off, the output stage overheats within minutes of sending.',
  },
];
