/**
 * What a copying operator makes of a printed message: which words are there and which are missing. Comparing with the text as
 * it was meant stands for a human who sees that a word is garbled; a real operator knows language, this one knows the text.
 */

/** Words of a text: line ends and runs of space count as one space. */
export const wordsOf = (text: string): string[] =>
  text
    .toUpperCase()
    .split(/\s+/)
    .filter((w) => w !== '');

/** What has been got so far: for each wanted word whether it is there, and the odd passages that came instead of others. */
export type Copied = { has: boolean[]; odd: string[] };
/** A copy of which nothing has come. */
export const nothingCopied = (words: number): Copied => ({ has: new Array<boolean>(words).fill(false), odd: [] });

/** Does a word look right? A figure in place of another is not seen by anybody. */
function looksLike(wanted: string, got: string): boolean {
  if (wanted === got) return true;
  if (wanted.length !== got.length) return false;
  const isFigure = (c: string) => c >= '0' && c <= '9';
  return Array.from(wanted).every((c, i) => c === got[i] || (isFigure(c) && isFigure(got[i] as string)));
}

/** For each wanted word, which of the words got stands for it, or -1: a longest common subsequence, the first going on. */
function align(wanted: readonly string[], got: readonly string[]): number[] {
  const n = wanted.length;
  const m = got.length;
  const best = new Int32Array((n + 1) * (m + 1));
  const at = (i: number, j: number) => best[i * (m + 1) + j] as number;
  const alike = (i: number, j: number) => looksLike(wanted[i] as string, got[j] as string);
  for (let i = n - 1; i >= 0; i--)
    for (let j = m - 1; j >= 0; j--)
      best[i * (m + 1) + j] = alike(i, j) ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
  const stands = new Array<number>(n).fill(-1);
  for (let i = 0, j = 0; i < n && j < m; ) {
    if (alike(i, j)) stands[i++] = j++;
    else if (at(i + 1, j) >= at(i, j + 1)) i++;
    else j++;
  }
  return stands;
}

/** Passages between words that are there: from and to (wanted words), and what was printed instead. */
function oddPassages(stands: readonly number[], got: readonly string[]): { from: number; to: number; key: string }[] {
  const out: { from: number; to: number; key: string }[] = [];
  for (let from = 1; from < stands.length; from++) {
    if (stands[from] !== -1 || stands[from - 1] === -1) continue;
    let to = from;
    while (to < stands.length && stands[to] === -1) to++;
    // At the very end the message may just have broken off.
    if (to < stands.length) {
      const printed = got.slice((stands[from - 1] as number) + 1, stands[to]);
      out.push({ from, to, key: `${from} ${to} ${printed.join(' ')}` });
    }
  }
  return out;
}

/** Take in one more transmission. A passage that came the same odd way before was sent so: chance does not err twice alike. */
export function takeIn(copied: Copied, wanted: readonly string[], got: readonly string[]): Copied {
  const stands = align(wanted, got);
  const has = stands.map((j, i) => j >= 0 || copied.has[i] === true);
  const odd = oddPassages(stands, got);
  for (const { from, to, key } of odd) if (copied.odd.includes(key)) has.fill(true, from, to);
  return { has, odd: [...copied.odd, ...odd.map((o) => o.key)] };
}

/** Share of the words that are there, 0..1. */
export const shareOf = ({ has }: Copied): number => has.filter(Boolean).length / Math.max(1, has.length);

/** What to ask for: "ALL" when nothing came, else "ALL AFTER" the last two words before the first missing one; null when all is there. */
export function askFor(wanted: readonly string[], { has }: Copied): string | null {
  const missing = has.indexOf(false);
  if (missing < 0) return null;
  return missing === 0 ? 'ALL' : `ALL AFTER ${wanted.slice(Math.max(0, missing - 2), missing).join(' ')}`;
}
