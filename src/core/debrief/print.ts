/** What printers printed, a piece an entry; and keys that printed nothing. */
import { PIECE_GAP_US } from '../marking/copy.ts';
import type { Line } from '../record/record.ts';
import type { Entry } from './timeline.ts';

/** So many characters of a piece are told. */
const SHOWN = 160;

type Printed = Extract<Line, { k: 'print' }>;
type Piece = { first: Printed; last_us: number; text: string };

function pieceText({ first, text }: Piece): Entry[] {
  const flat = text.replace(/\s+/g, ' ').trim();
  if (flat === '') return [];
  const who = first.at === 'own' ? 'Own machine' : first.at;
  const shown =
    flat.length > SHOWN ? `${flat.slice(0, SHOWN).replace(/\s+\S*$/, '')} ... (${flat.length} characters)` : flat;
  return [{ t_us: first.t, line: first.i, title: `${who} printed: ${shown}` }];
}

/** Every piece of print, at its first character. */
export function printEntries(lines: readonly Line[]): Entry[] {
  const open = new Map<string, Piece>();
  const out: Entry[] = [];
  for (const line of lines) {
    if (line.k !== 'print') continue;
    const piece = open.get(line.at);
    if (piece && line.t - piece.last_us <= PIECE_GAP_US) {
      piece.text += line.c;
      piece.last_us = line.t;
      continue;
    }
    if (piece) out.push(...pieceText(piece));
    open.set(line.at, { first: line, last_us: line.t, text: line.c });
  }
  return [...out, ...Array.from(open.values()).flatMap(pieceText)];
}

/** Keys that stand for a character; the others shift, feed and return. */
const isCharacter = (key: unknown): boolean => key === 'SPACE' || /^[A-Z]$/.test(String(key));

/** Characters typed in a row while the own machine printed nothing. */
export function mutedKeys(lines: readonly Line[]): Entry[] {
  const runs: { first: Line; last_us: number; n: number; printed: boolean }[] = [];
  for (const [at, line] of lines.entries()) {
    const last = runs[runs.length - 1];
    if (line.k === 'print' && line.at === 'own' && last && line.t - last.last_us <= PIECE_GAP_US) last.printed = true;
    if (line.k !== 'do' || line.control !== 'printer.key' || lines[at + 1]?.k === 'refused') continue;
    const n = isCharacter(line.value) ? 1 : 0;
    if (last && line.t - last.last_us <= PIECE_GAP_US) Object.assign(last, { n: last.n + n, last_us: line.t });
    else runs.push({ first: line, last_us: line.t, n, printed: false });
  }
  return runs
    .filter((run) => !run.printed && run.n > 0)
    .map(({ first, n }) => ({
      t_us: first.t,
      line: first.i,
      title: `${n} ${n === 1 ? 'character' : 'characters'} typed, nothing printed`,
    }));
}
