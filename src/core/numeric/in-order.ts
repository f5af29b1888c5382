/** Pairs of two lists in one order: which of what was asked for came in its turn. */

/**
 * Pairs things 0..n-1 with things 0..m-1 so that both rise and the sum of `worth` (0 or less: no pair) is the most; of equal
 * sums the earliest partners. The longest common subsequence with weights (Wagner and Fischer, 1974). Time and room n times m.
 */
export function inOrder(n: number, m: number, worth: (i: number, j: number) => number): Map<number, number> {
  const width = m + 1;
  const sums = new Float64Array((n + 1) * width);
  const paired = (i: number, j: number, w: number): number =>
    w > 0 ? w + (sums[(i + 1) * width + j + 1] as number) : 0;
  for (let i = n - 1; i >= 0; i--)
    for (let j = m - 1; j >= 0; j--) {
      const [down, right] = [sums[(i + 1) * width + j] as number, sums[i * width + j + 1] as number];
      sums[i * width + j] = Math.max(down, right, paired(i, j, worth(i, j)));
    }
  const pairs = new Map<number, number>();
  let [i, j] = [0, 0];
  while (i < n && j < m) {
    const sum = sums[i * width + j] as number;
    const w = worth(i, j);
    if (w > 0 && paired(i, j, w) === sum) pairs.set(i++, j++);
    else if (sums[(i + 1) * width + j] === sum) i++;
    else j++;
  }
  return pairs;
}
