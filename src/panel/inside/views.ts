/** One view a link. */
import type { Inside, LinkName } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { ether } from './ether.ts';
import { farWhip } from './far-whip.ts';
import { prose } from './figures.ts';
import type { Drawn } from './frame.ts';
import { keyer } from './keyer.ts';
import { keys } from './keys.ts';
import { loop } from './loop.ts';
import { print } from './print.ts';
import { receiver } from './receiver.ts';
import { WHAT } from './say.ts';
import { sender } from './sender.ts';
import { terminalUnit } from './terminal-unit.ts';
import { whip } from './whip.ts';

const VIEWS: { [L in LinkName]: (look: Extract<Inside, { link: L }>) => Drawn } = {
  keys,
  loop,
  keyer,
  sender,
  whip,
  ether,
  'far whip': farWhip,
  receiver,
  'terminal unit': terminalUnit,
  print,
};

/** Where nothing comes in, the sheet says so and why. */
function deafened(d: Drawn, why: string): Drawn {
  const draw = (a: Box) =>
    prose({ ...a, top: a.top + 24 }, `Nothing comes in here: ${why}.`, { size: 18, fill: 'ink' });
  return { ...d, window: null, rows: d.rows.filter((r) => r.isPast), picture: { h: 0.4, draw } };
}

/** Why a link of the receiving end has nothing to show, or ''. */
function silenceOf(look: Inside): string {
  if ('deaf' in look && look.deaf) return look.deaf;
  const isPrinting = look.link === 'terminal unit' || look.link === 'print';
  return isPrinting && !look.isOwn && look.on !== 'print' ? `${look.who} has ${WHAT[look.on]} by ear` : '';
}

/** What the sheet of a link shows of a look. */
export function drawnOf(look: Inside): Drawn {
  const drawn = (VIEWS[look.link] as (l: Inside) => Drawn)(look);
  const why = silenceOf(look);
  return why ? deafened(drawn, why) : drawn;
}
