/** One view a link. */
import type { Inside, LinkName } from '../../core/drill.ts';
import { ether } from './ether.ts';
import { farWhip } from './far-whip.ts';
import type { Drawn } from './frame.ts';
import { keyer } from './keyer.ts';
import { keys } from './keys.ts';
import { loop } from './loop.ts';
import { print } from './print.ts';
import { receiver } from './receiver.ts';
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

/** What the sheet of a link shows of a look. */
export const drawnOf = (look: Inside): Drawn => (VIEWS[look.link] as (l: Inside) => Drawn)(look);
