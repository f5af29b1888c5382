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

/** For each wanted word, whether it was got, by the longest common subsequence of words (the first such, going back). */
export function gotWords(wanted: readonly string[], got: readonly string[]): boolean[] {
  const n = wanted.length;
  const m = got.length;
  const best = Array.from({ length: n + 1 }, () => new Array<number>(m + 1).fill(0));
  const at = (i: number, j: number) => (best[i] as number[])[j] as number;
  for (let i = n - 1; i >= 0; i--)
    for (let j = m - 1; j >= 0; j--)
      (best[i] as number[])[j] = wanted[i] === got[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
  const has = new Array<boolean>(n).fill(false);
  for (let i = 0, j = 0; i < n && j < m; ) {
    if (wanted[i] === got[j]) {
      has[i++] = true;
      j++;
    } else if (at(i + 1, j) >= at(i, j + 1)) i++;
    else j++;
  }
  return has;
}

/** What to ask for: "ALL" when nothing came, else "ALL AFTER" the last two words before the first missing one; null when all is there. */
export function askFor(wanted: readonly string[], has: readonly boolean[]): string | null {
  const missing = has.indexOf(false);
  if (missing < 0) return null;
  return missing === 0 ? 'ALL' : `ALL AFTER ${wanted.slice(Math.max(0, missing - 2), missing).join(' ')}`;
}
