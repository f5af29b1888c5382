/** How far the signal gets now, as the manner lets it be seen: for the ribbon. Only looks. */
import { LINKS } from '../core/drill.ts';
import type { PanelHost, Sight } from './host.ts';

/** Links of the own sender, and the one at which the ether gives a signal to the own receiver. */
const OWN_SENDER = 5;
const RECEIVER = 7;
const NOWHERE: readonly boolean[] = LINKS.map(() => false);

/** Who sends, who should receive, at which links the signal is, and which the manner hides. */
export type Reach = {
  way: 'out' | 'in';
  from: string;
  to: string;
  lit: readonly boolean[];
  /** First and last link that must not be shown, or null. */
  hidden: readonly [number, number] | null;
};

/** First and last link that the signal passes, or null. */
export function stretchOf({ lit }: Pick<Reach, 'lit'>): readonly [number, number] | null {
  const first = lit.indexOf(true);
  return first < 0 ? null : [first, lit.lastIndexOf(true)];
}

/** The reach as the manner lets it be seen: what an operator could not know is hidden in unaided and assessed work. */
export function reachOf({ drill }: Sight, manner: PanelHost['manner']): Reach {
  const { way, from, to, passes } = drill.passage();
  const isBlind = manner === 'unaided' || manner === 'assessed';
  if (way === 'in') {
    // Blind, one knows of a signal only from one's own receiver on.
    const lit = isBlind && !passes[RECEIVER] ? NOWHERE : passes;
    return { way, from: isBlind ? 'far' : from, to: 'you', lit, hidden: isBlind ? [0, OWN_SENDER] : null };
  }
  return {
    way,
    from: 'you',
    to: isBlind || to === '' ? 'far' : to,
    lit: isBlind ? passes.map((on, i) => on && i < OWN_SENDER) : passes,
    hidden: isBlind ? [OWN_SENDER, LINKS.length - 1] : null,
  };
}
