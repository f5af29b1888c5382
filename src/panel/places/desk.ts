/** The desk: papers on it, what is heard, the word line. */
import { HeardStrip } from '../cards.ts';
import { wordLine } from '../controls/writing.ts';
import type { Box } from '../kit/bounds.ts';
import { themeOf } from '../theme.ts';
import { type Bed, box } from './bed.ts';
import { callCard, frequencyChart, logAndForms, orderSlip, recognitionCard, type Under } from './papers.ts';
import { ReachPaper } from './reach-paper.ts';

/** Where each thing lies. */
export type Places = Readonly<Record<string, Box>>;
/** Where papers lie on the desk. */
export const ON_DESK: Places = {
  order: box(164, 132, 384, 372),
  chart: box(396, 130, 766, 252),
  calls: box(396, 262, 766, 374),
  card: box(776, 128, 1084, 376),
  log: box(30, 382, 690, 668),
  heard: box(704, 382, 1256, 448),
  words: box(704, 458, 1256, 668),
  pad: box(704, 494, 1256, 668),
  reach: box(20, 124, 1260, 676),
};

/** What was heard, the last `most` transmissions. */
export function heardPart(bed: Bed, where: Box, most: number): void {
  const strip = new HeardStrip(most);
  bed.at(strip.el, where);
  bed.follow((s) => strip.update(s));
}

/** Order, chart, call signs, recognition card, log and forms; slip and card, if there are, hang on under the log, which leaves them the room they need. */
export function papersPart(bed: Bed, on: Places = ON_DESK, under?: Under): void {
  const { papers } = bed.host.drill.scenario;
  const order = orderSlip();
  bed.at(order.el, on['order']!);
  const reach = new ReachPaper(bed.host.drill, { palette: themeOf, isNarrow: on !== ON_DESK });
  bed.at(frequencyChart(papers.frequencies, reach.button), on['chart']!);
  const laid = bed.at(reach.el, on['reach'] ?? ON_DESK['reach']!);
  // On a phone it has no place: it covers the window.
  if (!on['reach']) laid.removeAttribute('style');
  bed.follow(() => reach.update());
  bed.at(callCard(papers.calls), on['calls']!);
  bed.follow((s) => order.update(s));
  if (papers.card) {
    const card = recognitionCard(papers.card);
    bed.at(card.el, on['card']!);
    bed.follow((s) => card.update(s));
  }
  const log = logAndForms(bed.hand, papers.messages, textMax(bed, 'desk', 'log'), under);
  bed.at(log.el, on['log']!);
  // Its tiles lie over those of the word line; on a phone they stay in the log.
  if (on['pad']) bed.at(log.line.pad, on['pad']);
  bed.follow((s) => log.update(s));
}

/** Heard and said. */
export function voicePart(bed: Bed, on: Places = ON_DESK): void {
  heardPart(bed, on['heard']!, 2);
  const { own, papers } = bed.host.drill.scenario;
  const max = textMax(bed, 'hand', 'say');
  const line = wordLine(bed.hand, { own: own.call, calls: papers.calls.map((c) => c.call), max });
  bed.at(line.el, on['words']!);
  bed.follow(() => line.update());
}

function textMax({ boxes }: Bed, boxId: string, id: string): number {
  const range = boxes.find((b) => b.id === boxId)?.controls.find((c) => c.id === id)?.range;
  return range?.kind === 'text' ? range.max : 120;
}
