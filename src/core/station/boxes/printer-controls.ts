/** The printer's controls as data. */
import type { Control } from '../box.ts';

/** Controls of the printer, in the order of the panel. */
export const printerControls: readonly Control[] = [
  {
    id: 'motor',
    name: 'Printer motor',
    face: 'plunger',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside:
      'Runs the motor that turns keyboard and reader. It needs two seconds to come to speed and takes four times its current meanwhile.',
    caution: 'Sleeves, hair and fingers stay clear of a running mechanism; mains volts are inside.',
  },
  {
    id: 'source',
    name: 'Printer lever',
    face: 'tiller',
    range: { kind: 'words', words: ['local', 'line'] },
    inside:
      'Local: keyboard, tape reader and printer work by themselves. Line: they stand in the line loop, as far as the line box patches them in.',
  },
  {
    id: 'range',
    name: 'Range',
    face: 'limpet',
    range: { kind: 'number', min: 0, max: 100, step: 1, unit: '%' },
    inside:
      'Moves the instant at which the reader looks at each unit. The middle between the two ends where print begins to fail is best.',
  },
  {
    id: 'key',
    name: 'Keyboard',
    face: 'keyboard',
    range: {
      kind: 'text',
      max: 6,
      allowed: 'one of A to Z, LTRS, FIGS, CR, LF, SPACE, BLANK',
      only: /^(?:[A-Za-z]|LTRS|FIGS|CR|LF|SPACE|BLANK)?$/,
    },
    inside:
      'One key sends one character: start, five units, stop. Until it is through the lock holds the others: keys struck meanwhile wait their turn, with a bar on them, and go by themselves; past sixteen the next is refused. Figures are on the letter keys, after FIGS.',
  },
  {
    id: 'paper',
    name: 'New paper',
    face: 'push',
    range: { kind: 'press' },
    inside: 'Puts in a new roll. Without paper the type strikes the bare platen.',
  },
  {
    id: 'tearOff',
    name: 'Tear off',
    face: 'push',
    range: { kind: 'press' },
    inside: 'Tears the page off above the type. What was printed goes with it.',
  },
];
