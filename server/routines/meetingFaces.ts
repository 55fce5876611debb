import {
  angleOf,
  type Expression,
  minus,
  number,
  over,
  plus,
  shifted,
  squareRoot,
  times,
} from './expression.ts';
import type { Motion } from './motion.ts';

/** The touches of one face: coordinates of the ball's centre, and where along the face they were. */
export interface Face {
  readonly near: Expression;
  readonly far: Expression | null;
  readonly nearAt: Expression;
  readonly farAt: Expression;
}

/** The way the tip moves to meet the face across X and the one across Y. */
export type Signs = readonly [1 | -1, 1 | -1];

type Corner = (
  motion: Motion,
  faceX: Face,
  faceY: Face,
  radius: Expression,
  signs: Signs,
) => { readonly x: Expression; readonly y: Expression };

export const squareCorner: Corner = (motion, faceX, faceY, radius, signs) => ({
  x: motion.set('cornerX', shifted(faceX.near, signs[0], radius), 'result'),
  y: motion.set('cornerY', shifted(faceY.near, signs[1], radius), 'result'),
});

/**
 * Where the two faces meet. The tip's centre runs along x = x1 + s·(y − y1) beside the face across X; the face itself lies
 * r·√(1 + s²) further on in X. The same across Y with slope t; then x = (a + s·b)/(1 − s·t) and y = b + t·x.
 */
export const turnedCorner: Corner = (motion, faceX, faceY, radius, signs) => {
  const slopeX = slope(motion, faceX, 'slopeX');
  const slopeY = slope(motion, faceY, 'slopeY');
  motion.note(
    'Each face where the other coordinate is zero; along its slope the radius counts for a little more.',
  );
  const atZeroX = faceAtZero(motion, faceX, slopeX, radius, signs[0], 'faceX');
  const atZeroY = faceAtZero(motion, faceY, slopeY, radius, signs[1], 'faceY');
  motion.note('Where the two meet.');
  const meeting = over(plus(atZeroX, times(slopeX, atZeroY)), minus(number(1), times(slopeX, slopeY)));
  const x = motion.set('cornerX', meeting, 'result');
  const y = motion.set('cornerY', plus(atZeroY, times(slopeY, x)), 'result');
  motion.set('turned', angleOf(slopeY), 'result: degrees, by the face across Y');
  return { x, y };
};

function slope(motion: Motion, face: Face, name: string): Expression {
  const rise = minus(face.far ?? face.near, face.near);
  return motion.set(name, over(rise, minus(face.farAt, face.nearAt)), 'slope of the face');
}

function faceAtZero(
  motion: Motion,
  face: Face,
  slopeOfFace: Expression,
  radius: Expression,
  sign: 1 | -1,
  name: string,
): Expression {
  const centre = minus(face.near, times(slopeOfFace, face.nearAt));
  const longer = times(radius, squareRoot(plus(number(1), times(slopeOfFace, slopeOfFace))));
  const path = motion.set(name, centre, 'path of the tip');
  return motion.set(name, shifted(path, sign, longer), 'the face');
}
