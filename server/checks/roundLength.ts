/** Half millimetres and thirty-seconds of an inch: lengths as drawings and people write them. */
const steps = [0.5, 25.4 / 32];
const within = 0.0005;

/** @param value mm */
export function isRoundLength(value: number): boolean {
  return steps.some((step) => Math.abs(value / step - Math.round(value / step)) * step <= within);
}
