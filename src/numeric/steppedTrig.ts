const BLOCK = 16;

/**
 * Cosine and sine of i·step for i = 0 … last. The library functions serve the first block and the head of each
 * later one, the addition theorem the rest: one product a value, so errors stay at two or three roundings.
 *
 * @param last index of the last entry
 * @param step radians
 */
export function steppedTrig(last: number, step: number): { cosine: number[]; sine: number[] } {
  const cosine = new Array<number>(last + 1);
  const sine = new Array<number>(last + 1);
  for (let i = 0; i <= last; i++) {
    const within = i % BLOCK;
    const head = i - within;
    if (head === 0 || within === 0) {
      cosine[i] = Math.cos(i * step);
      sine[i] = Math.sin(i * step);
    } else {
      cosine[i] = cosine[head] * cosine[within] - sine[head] * sine[within];
      sine[i] = sine[head] * cosine[within] + cosine[head] * sine[within];
    }
  }
  return { cosine, sine };
}
