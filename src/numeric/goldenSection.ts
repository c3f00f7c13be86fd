const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Where a function with a single minimum is smallest, by golden section.
 *
 * @param f may have kinks
 * @param from, to bounds
 * @param within the place is found to this
 */
export function minimumOf(f: (x: number) => number, from: number, to: number, within: number): number {
  let [low, high] = [from, to];
  let [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [atLeft, atRight] = [f(left), f(right)];
  while (high - low > within) {
    if (atLeft < atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = f(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = f(right);
    }
  }
  return (low + high) / 2;
}
