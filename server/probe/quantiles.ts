import chiSquare from '@stdlib/stats-base-dists-chisquare-quantile';
import fisher from '@stdlib/stats-base-dists-f-quantile';
import normalDistribution from '@stdlib/stats-base-dists-normal-cdf';
import normal from '@stdlib/stats-base-dists-normal-quantile';
import student from '@stdlib/stats-base-dists-t-quantile';

/** z with this probability below it, standard normal; p in 0…1, NaN outside. */
export function normalQuantile(p: number): number {
  return normal(p, 0, 1);
}

/** Probability below z, standard normal. */
export function normalProbability(z: number): number {
  return normalDistribution(z, 0, 1);
}

/** Student's t with this probability below it; `degreesOfFreedom` any positive number, null = infinite: the normal's. */
export function studentQuantile(p: number, degreesOfFreedom: number | null): number {
  return isInfinite(degreesOfFreedom) ? normalQuantile(p) : student(p, degreesOfFreedom);
}

/** χ² with this probability below it; any positive degrees of freedom. */
export function chiSquareQuantile(p: number, degreesOfFreedom: number): number {
  return chiSquare(p, degreesOfFreedom);
}

/** F of two variances' ratio with this probability below it, degrees of freedom of the upper one first. */
export function fisherQuantile(p: number, upper: number, lower: number): number {
  return fisher(p, upper, lower);
}

/** From here t is the normal's to 1e-11, while the library's series runs out of digits. */
const asGoodAsInfinite = 1e12;

function isInfinite(degreesOfFreedom: number | null): degreesOfFreedom is null {
  return degreesOfFreedom === null || degreesOfFreedom >= asGoodAsInfinite;
}
