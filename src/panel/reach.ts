/** How far the signal really gets now: for the ribbon. Only looks. */
import type { PanelHost, Sight } from './host.ts';

/** Links of the ribbon, from the hand that keys to the page that prints. */
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

/** Who sends, who should receive, how many links from the left the signal gets, and which the manner hides. */
export type Reach = {
  way: 'out' | 'in';
  from: string;
  to: string;
  lit: number;
  /** First and last link that must not be shown, or null. */
  hidden: readonly [number, number] | null;
};

/** A printed character shows that print works for this long, us. */
const LATELY_US = 1_500_000;

/** Wire edges: the state at an instant, mark before the first. */
export function markAt(edges: readonly { t_us: number; mark: boolean }[], t_us: number): boolean {
  let mark = edges[0] ? !edges[0].mark : true;
  for (const e of edges) {
    if (e.t_us > t_us) break;
    mark = e.mark;
  }
  return mark;
}

/** A line of the record of the last moments that satisfies a test. */
function lately(sight: Sight, test: (line: Sight['drill']['record']['lines'][number]) => boolean): boolean {
  const { lines } = sight.drill.record;
  for (let i = lines.length - 1; i >= 0; i--) {
    const line = lines[i]!;
    if (line.t < sight.now_us - LATELY_US) return false;
    if (test(line)) return true;
  }
  return false;
}

/** The far station that this drill is about. */
const partner = (sight: Sight): string => sight.drill.scenario.stations[0]?.call ?? 'far';

/** Power that each far station radiates, as the record last had it. */
function farSends(sight: Sight): string | null {
  const seen = new Set<string>();
  const { lines } = sight.drill.record;
  for (let i = lines.length - 1; i >= 0 && i > lines.length - 4000; i--) {
    const line = lines[i]!;
    if (line.k !== 'air' || line.station === sight.drill.scenario.own.call || seen.has(line.station)) continue;
    seen.add(line.station);
    if (line.power_W > 0) return line.station;
  }
  return null;
}

const count = (steps: readonly boolean[]): number => {
  const dead = steps.indexOf(false);
  return dead < 0 ? steps.length : dead;
};

function outward(sight: Sight, far: string): number {
  const { wires: w } = sight;
  const voice = w.talking || markAt(w.handKey, sight.now_us) === true;
  const spoken = w.radiation.emission === 'A1A' || w.radiation.emission === 'A3E';
  const keyed = w.source === 'line' && w.loop_mA >= 12;
  const radiates = w.radiated_W > 0;
  const own = spoken
    ? [voice, voice, voice, w.armed, radiates]
    : [keyed || voice, w.loop_mA >= 12, w.supply_mA > 0 && w.lever !== 'IN', w.armed, radiates];
  const heard = lately(sight, (l) => l.k === 'print' && l.at === far);
  const told = lately(sight, (l) => l.k === 'far' && l.station === far);
  return count([...own, radiates, heard || told, heard || told, heard, heard]);
}

function inward(sight: Sight): number {
  const { wires: w } = sight;
  const hears = w.rx.on && !w.rx.deaf;
  const signal = hears && !w.rx.quiet;
  const locked = sight.see('keyer.lock') === true && w.supply_mA > 0;
  const prints = w.lever === 'IN' && w.source === 'line' && lately(sight, (l) => l.k === 'print' && l.at === 'own');
  return count([true, true, true, true, true, true, hears, signal, locked, prints]);
}

/** The reach as the manner lets it be seen: what an operator could not know is hidden in unaided and assessed work. */
export function reachOf(sight: Sight, manner: PanelHost['manner']): Reach {
  const isBlind = manner === 'unaided' || manner === 'assessed';
  const sender = sight.wires.radiated_W > 0 ? null : farSends(sight);
  if (sender) {
    const lit = inward(sight);
    // Blind, one knows of a signal only from one's own receiver on.
    const known = isBlind && lit < 8 ? 0 : lit;
    return { way: 'in', from: isBlind ? 'far' : sender, to: 'you', lit: known, hidden: isBlind ? [0, 5] : null };
  }
  const far = partner(sight);
  const lit = outward(sight, far);
  return {
    way: 'out',
    from: 'you',
    to: isBlind ? 'far' : far,
    lit: isBlind ? Math.min(5, lit) : lit,
    hidden: isBlind ? [5, 9] : null,
  };
}
