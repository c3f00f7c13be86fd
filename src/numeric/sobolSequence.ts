/**
 * For each dimension after the first a primitive polynomial over GF(2), its bits as a number, and the first direction numbers.
 *
 * Source: S. Joe & F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008) 2635–2654, the numbers that go with it (new-joe-kuo-6), as distributed with
 * scipy 1.10; tested against scipy's sequence.
 */
const DIRECTIONS: readonly (readonly number[])[] = [
  [3, 1],
  [7, 1, 3],
  [11, 1, 3, 1],
  [13, 1, 1, 1],
  [19, 1, 1, 3, 3],
  [25, 1, 3, 5, 13],
  [37, 1, 1, 5, 5, 17],
  [41, 1, 1, 5, 5, 5],
  [47, 1, 1, 7, 11, 19],
  [55, 1, 1, 5, 1, 1],
  [59, 1, 1, 1, 3, 11],
  [61, 1, 3, 5, 5, 31],
  [67, 1, 3, 3, 9, 7, 49],
  [91, 1, 1, 1, 15, 21, 21],
  [97, 1, 3, 1, 13, 27, 49],
  [103, 1, 1, 1, 15, 7, 5],
  [109, 1, 3, 1, 15, 13, 25],
  [115, 1, 1, 5, 5, 19, 61],
  [131, 1, 3, 7, 11, 23, 15, 103],
  [137, 1, 3, 7, 13, 13, 15, 69],
  [143, 1, 1, 3, 13, 7, 35, 63],
  [145, 1, 3, 5, 9, 1, 25, 53],
  [157, 1, 3, 1, 13, 9, 35, 107],
  [167, 1, 3, 1, 5, 27, 61, 31],
  [171, 1, 1, 5, 11, 19, 41, 61],
  [185, 1, 3, 5, 3, 3, 13, 69],
  [191, 1, 1, 7, 13, 1, 19, 1],
  [193, 1, 3, 7, 5, 13, 19, 59],
  [203, 1, 1, 3, 9, 25, 29, 41],
  [211, 1, 3, 5, 13, 23, 1, 55],
  [213, 1, 3, 7, 3, 13, 59, 17],
  [229, 1, 3, 1, 3, 5, 53, 69],
  [239, 1, 1, 5, 5, 23, 33, 13],
  [241, 1, 1, 7, 7, 1, 61, 123],
  [247, 1, 1, 7, 9, 13, 61, 49],
  [253, 1, 3, 3, 5, 3, 55, 33],
  [285, 1, 3, 1, 15, 31, 13, 49, 245],
  [299, 1, 3, 5, 15, 31, 59, 63, 97],
  [301, 1, 3, 1, 11, 11, 11, 77, 249],
  [333, 1, 3, 1, 11, 27, 43, 71, 9],
  [351, 1, 1, 7, 15, 21, 11, 81, 45],
  [355, 1, 3, 7, 3, 25, 31, 65, 79],
  [357, 1, 3, 1, 1, 19, 11, 3, 205],
  [361, 1, 1, 5, 9, 19, 21, 29, 157],
  [369, 1, 3, 7, 11, 1, 33, 89, 185],
  [391, 1, 3, 3, 3, 15, 9, 79, 71],
  [397, 1, 3, 7, 11, 15, 39, 119, 27],
  [425, 1, 1, 3, 1, 11, 31, 97, 225],
  [451, 1, 1, 1, 3, 23, 43, 57, 177],
  [463, 1, 3, 7, 7, 17, 17, 37, 71],
  [487, 1, 3, 1, 5, 27, 63, 123, 213],
  [501, 1, 1, 3, 5, 11, 43, 53, 133],
  [529, 1, 3, 5, 5, 29, 17, 47, 173, 479],
  [539, 1, 3, 3, 11, 3, 1, 109, 9, 69],
  [545, 1, 1, 1, 5, 17, 39, 23, 5, 343],
  [557, 1, 3, 1, 5, 25, 15, 31, 103, 499],
  [563, 1, 1, 1, 11, 11, 17, 63, 105, 183],
  [601, 1, 1, 5, 11, 9, 29, 97, 231, 363],
  [607, 1, 1, 5, 15, 19, 45, 41, 7, 383],
  [617, 1, 3, 7, 7, 31, 19, 83, 137, 221],
  [623, 1, 1, 1, 3, 23, 15, 111, 223, 83],
  [631, 1, 1, 5, 13, 31, 15, 55, 25, 161],
  [637, 1, 1, 3, 13, 25, 47, 39, 87, 257],
];

/** One more than there are polynomials. */
export const MOST_DIMENSIONS = 64;
const BITS = 32;

/** Direction vectors of a dimension, the topmost bit first, each as a 32-bit fraction. */
function directionVectors(dimension: number): Uint32Array {
  const vectors = new Uint32Array(BITS);
  if (dimension === 0) return vectors.map((_, bit) => 2 ** (BITS - 1 - bit));
  const [polynomial, ...first] = DIRECTIONS[dimension - 1];
  const degree = first.length;
  for (let bit = 0; bit < BITS; bit++) {
    if (bit < degree) {
      vectors[bit] = first[bit] * 2 ** (BITS - 1 - bit);
      continue;
    }
    let vector = vectors[bit - degree] ^ (vectors[bit - degree] >>> degree);
    for (let k = 1; k < degree; k++) {
      if ((polynomial >>> (degree - k)) & 1) vector ^= vectors[bit - k];
    }
    vectors[bit] = vector;
  }
  return vectors;
}

const ALL_VECTORS = new Map<number, Uint32Array>();

/** A coordinate of the Sobol' sequence in its natural order, as a 32-bit fraction. */
export function sobolBits(index: number, dimension: number): number {
  let vectors = ALL_VECTORS.get(dimension);
  if (!vectors) {
    vectors = directionVectors(dimension);
    ALL_VECTORS.set(dimension, vectors);
  }
  let bits = 0;
  for (let bit = 0, rest = index; rest > 0; bit++, rest = Math.floor(rest / 2))
    if (rest % 2 === 1) bits ^= vectors[bit];
  return bits >>> 0;
}

function reversedBits(bits: number): number {
  let x = ((bits >>> 1) & 0x55555555) | ((bits & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return ((x >>> 16) | (x << 16)) >>> 0;
}

/** A 32-bit number that depends on both, and tells nothing of them. */
export function hashed(seed: number, which: number): number {
  let x = (Math.imul(seed | 0, 0x9e3779b1) ^ Math.imul(which + 1, 0x85ebca6b)) | 0;
  x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
  x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
  return (x ^ (x >>> 15)) >>> 0;
}

/**
 * Nested uniform scrambling: each bit is turned over or not as the bits above it and the seed say, so that the points stay as evenly spread
 * and every point by itself is uniform.
 *
 * Source: A. B. Owen, in Monte Carlo and Quasi-Monte Carlo Methods, 1995; by the hash of B. Burley, J. Comput. Graph. Tech. 9 (2020) no. 4
 * (from memory; tested for what it must keep).
 */
function scrambled(bits: number, seed: number): number {
  let x = (reversedBits(bits) + seed) | 0;
  x ^= Math.imul(x, 0x6c50b47c);
  x ^= Math.imul(x, 0xb82f1e52);
  x ^= Math.imul(x, 0xc7afe638);
  x ^= Math.imul(x, 0x8d22f6e6);
  return reversedBits(x >>> 0);
}

/**
 * A point of the scrambled Sobol' sequence, whichever points were asked before.
 *
 * @param index from 0
 * @param dimensions up to {@link MOST_DIMENSIONS}
 * @param seed a whole number
 * @returns coordinates between 0 and 1, neither of them reached
 */
export function sobolPoint(index: number, dimensions: number, seed: number): number[] {
  return Array.from(
    { length: dimensions },
    (_, dimension) => (scrambled(sobolBits(index, dimension), hashed(seed, dimension)) + 0.5) / 2 ** BITS,
  );
}
