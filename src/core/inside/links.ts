/** Links of the signal's way, from the hand that keys to the page that prints. */
export const LINKS = [
  'keys',
  'loop',
  'keyer',
  'sender',
  'whip',
  'ether',
  'far whip',
  'receiver',
  'terminal unit',
  'print',
] as const;

export type LinkName = (typeof LINKS)[number];
