/** A steady number 0 to 1 for texture, from whole-number coordinates: the same drawing each time, no state. */
export function grain(...at: number[]): number {
  let h = 0x9e3779b9;
  for (const v of at) {
    h = Math.imul(h ^ (v | 0), 0x85ebca6b);
    h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
    h ^= h >>> 16;
  }
  return (h >>> 0) / 4294967296;
}

/** A steady number from a to b. */
export const between = (a: number, b: number, ...where: number[]): number => a + (b - a) * grain(...where);
