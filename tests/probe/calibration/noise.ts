import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Normal deviates of this standard deviation, the same for the same seed (Box and Muller). */
export function noise(seed: number, deviation: number): () => number {
  const generator = xoroshiro128plus(seed);
  const uniform = () => ((generator.next() >>> 0) + 0.5) / 2 ** 32;
  return () => deviation * Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
