/** c[0] + c[1] x + c[2] x^2 + ..., by Horner's rule; 0 for no coefficients. */
export function polynomial(ascending: readonly number[], x: number): number {
  let sum = 0;
  for (let i = ascending.length - 1; i >= 0; i--) sum = sum * x + ascending[i]!;
  return sum;
}
