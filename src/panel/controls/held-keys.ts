/** Keys of the printer's keyboard as they are held, in a word each: how the hand tells the drawing. */
import type { KeyboardValue } from '../faces/keyboard.ts';

type Held = Pick<KeyboardValue, 'down' | 'waits' | 'refused'>;

/** `Q` is down, `+W` waits, `!R-3` is refused and stands three units aside. */
export const heldText = ({ down, waits = [], refused }: Held): string =>
  [...down, ...waits.map((k) => `+${k}`), ...(refused ? [`!${refused.key}${signed(refused.aside)}`] : [])].join(' ');

const signed = (n: number): string => (n < 0 ? `${n}` : `+${n}`);

/** What `heldText` has written. */
export function heldKeys(text: string): Held {
  const words = text.split(' ').filter(Boolean);
  const refused = /!([A-Z]+)([+-]\d+)/.exec(text);
  return {
    down: words.filter((w) => /^[A-Z]/.test(w)),
    waits: words.filter((w) => w.startsWith('+')).map((w) => w.slice(1)),
    ...(refused ? { refused: { key: refused[1]!, aside: Number(refused[2]) } } : {}),
  };
}
