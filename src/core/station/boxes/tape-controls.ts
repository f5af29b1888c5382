/** The tape set's controls as data. */
import type { Control, ControlFace } from '../box.ts';
import { PEGS } from './tapes.ts';

const control = (id: string, name: string, face: ControlFace, range: Control['range'], inside: string): Control => ({
  id,
  name,
  face,
  range,
  inside,
});
const PRESS: Control['range'] = { kind: 'press' };

/** Controls of the tape set, in the order of the panel. */
export const tapeControls: readonly Control[] = [
  control(
    'punch',
    'Punch',
    'plunger',
    { kind: 'switch', words: ['off', 'on'] },
    'While on, every character that runs through the printer is punched into tape as well.',
  ),
  control(
    'run',
    'Reader',
    'tiller',
    { kind: 'switch', words: ['stop', 'run'] },
    'Feels the holes of the tape column by column and sends them, 400 characters a minute. It stops at the end of the tape, and waits when it has caught up with the punch.',
  ),
  control(
    'back',
    'Back',
    'push',
    PRESS,
    'Draws the tape back one column under the punch. Holes cannot be filled, but a column with all five prints nothing: punch LTRS over a wrong character.',
  ),
  control('feed', 'Feed out', 'push', PRESS, 'Punches ten columns of all holes as a leader. They print nothing.'),
  control(
    'tear',
    'Tear off',
    'push',
    PRESS,
    'Tears the tape off at the punch and lays it into the reader. A tape that lay there goes to a free peg.',
  ),
  control(
    'keep',
    'Keep',
    'push',
    PRESS,
    'Hangs the tape from the reader on the chosen peg, to be sent again to another station.',
  ),
  control(
    'rack',
    'Peg',
    'limpet',
    { kind: 'words', words: Array.from({ length: PEGS }, (_, i) => String(i + 1)) },
    'Chooses one of six pegs for Keep and Load.',
  ),
  control(
    'load',
    'Load',
    'push',
    PRESS,
    'Lays the tape of the chosen peg into the reader at its start. A tape in the reader takes its place on the peg.',
  ),
  control('step', 'Step', 'push', PRESS, 'Moves the reader one column on without sending.'),
  control('rewind', 'Rewind', 'push', PRESS, 'Draws the tape in the reader back to its start.'),
];
