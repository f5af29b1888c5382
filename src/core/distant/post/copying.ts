/** How a post copies a message by teleprinter, takes stock of it, receipts it or asks for what is missing. */

import { uniform } from '../../kernel/dice.ts';
import { askFor, nothingCopied, shareOf, takeIn, wordsOf } from '../../procedure/copying.ts';
import { copyBlock, newCopier, printCarrier, type Unit } from '../copier.ts';
import type { FarBench } from '../correspondent.ts';
import { isSending } from '../transmitter.ts';
import { print } from './sending.ts';
import { fire, note, type PostState, tuned_Hz } from './state.ts';

const BLOCK_US = 100_000;
/** A carrier that has been gone for so long has ended. */
const GONE_US = 3_000_000;
/** Fewer printed characters than this are no message, and from a short carrier no attempt at one. */
const LEAST_CHARS = 8;
const SHORT_US = 12_000_000;
/** Its hand stops within this of the true zero when it nets, Hz. */
const SLIP_HZ = 4;

const nextBlock = (bench: FarBench): void => bench.after(BLOCK_US - (bench.now_us % BLOCK_US), 'block');

/** Ready for a message, it hears a print carrier. */
export function beginCopy(s: PostState, bench: FarBench): void {
  const isOpen = s.mode === 'ready' || s.mode === 'copying' || s.mode === 'receipted';
  if (!isOpen || s.copier || isSending(s.radiation, bench.now_us)) return;
  if (!printCarrier(bench.ear, tuned_Hz(s), bench.now_us)) return;
  fire(s, 'CARRIER');
  note(s, bench, 'copying');
  s.copier = newCopier(bench.now_us, tuned_Hz(s));
  s.printed = '';
  nextBlock(bench);
}

function unitOf(s: PostState, bench: FarBench): Unit {
  const slip_Hz = Math.round(2 * SLIP_HZ * (uniform(bench.seed, `netting ${s.call}`, s.copier?.since_us ?? 0) - 0.5));
  return { ear: bench.ear, channel_Hz: s.with.kHz * 1000, shift_Hz: s.with.shift_Hz, slip_Hz };
}

/** A block every tenth of a second while a carrier is there, and until it has been gone for long enough. */
export function copy(s: PostState, bench: FarBench): void {
  const { copier } = s;
  if (!copier) return;
  for (const { code, c } of copyBlock(copier, unitOf(s, bench), bench.now_us)) {
    bench.note({ k: 'print', at: s.call, code, c });
    s.printed += c.replace('\r', '');
  }
  if (bench.now_us - copier.there_us > GONE_US) takeStock(s, bench, copier.there_us - copier.since_us);
  else nextBlock(bench);
}

/** The carrier is gone: is the message whole? The best match among the expected ones counts, pieces of repeats together. */
function takeStock(s: PostState, bench: FarBench, lasted_us: number): void {
  s.copier = null;
  if (s.printed.trim().length < LEAST_CHARS && lasted_us < SHORT_US) return;
  bench.forget((e) => e === 'unanswered');
  const got = wordsOf(s.printed);
  const candidates = bench.papers.messages
    .filter((m) => (s.message ? m.id === s.message : s.with.expects.includes(m.id)))
    .map((m) => ({ id: m.id, wanted: wordsOf(m.lines.join(' ')) }))
    .map((m) => ({ ...m, copied: takeIn(s.copied ?? nothingCopied(m.wanted.length), m.wanted, got) }))
    .sort((a, b) => shareOf(b.copied) - shareOf(a.copied));
  const [best] = candidates;
  if (!best || shareOf(best.copied) === 0) return ask(s, bench, 'ALL');
  Object.assign(s, { message: best.id, copied: best.copied });
  const wish = askFor(best.wanted, best.copied);
  if (wish !== null) return ask(s, bench, wish);
  fire(s, 'COPIED');
  receipt(s, bench, false);
}

function ask(s: PostState, bench: FarBench, wish: string): void {
  print(s, bench, `${s.partner} DE ${s.call} SAY AGAIN ${wish} K`, { asked: wish });
}

/** `NR14` as it is spoken of: `NR 14`. */
const numberOf = (id: string): string => id.replace(/^([A-Z]+)(\d+)$/, '$1 $2');

/** Receipt the message, perhaps once more. */
export function receipt(s: PostState, bench: FarBench, again: boolean): void {
  print(s, bench, `${s.partner} DE ${s.call} R ${numberOf(s.message)} K`, { receipted: s.message, again });
}
