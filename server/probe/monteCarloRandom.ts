import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Random numbers that come again for the same seed. */
export interface Random {
  /** In 0…1, neither end reached. */
  uniform(): number;
  /** Of mean 0 and standard deviation 1. */
  normal(): number;
  /** χ² of any positive degrees of freedom. */
  chiSquare(degreesOfFreedom: number): number;
}

export function randomFrom(seed: number): Random {
  const generator = xoroshiro128plus(seed);
  // The generator starts from few bits; nearby seeds have parted after these.
  for (let round = 0; round < 64; round += 1) generator.next();
  let spare: number | null = null;
  const uniform = (): number => ((generator.next() >>> 0) + 0.5) / 4294967296;

  /** Marsaglia & Bray, SIAM Review 6 (1964) 260–264: two at a time. */
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    let [x, y, square] = [0, 0, 0];
    do {
      x = 2 * uniform() - 1;
      y = 2 * uniform() - 1;
      square = x * x + y * y;
    } while (square >= 1 || square === 0);
    const factor = Math.sqrt((-2 * Math.log(square)) / square);
    spare = y * factor;
    return x * factor;
  };

  /** Twice a gamma variable by Marsaglia & Tsang, ACM Trans. Math. Software 26 (2000) 363–372. */
  const chiSquare = (degreesOfFreedom: number): number => {
    const shape = degreesOfFreedom / 2;
    if (shape < 1) return chiSquare(degreesOfFreedom + 2) * uniform() ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return 2 * d * v;
    }
  };

  return { uniform, normal, chiSquare };
}
