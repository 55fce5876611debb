import { squareCorner, turnedCorner } from './meetingFaces.ts';
import { type NominalPart, placeAlong } from './nominalPart.ts';
import type { Input, Plan, Result } from './routine.ts';

/** One of four corners; `lies` says what is towards the two sides of it. */
export function cornerInput(lies: (corner: { readonly x: string; readonly y: string }) => string): Input {
  const corners = [
    { value: 'left-front', title: 'left front', x: 'X-', y: 'Y-' },
    { value: 'right-front', title: 'right front', x: 'X+', y: 'Y-' },
    { value: 'left-back', title: 'left back', x: 'X-', y: 'Y+' },
    { value: 'right-back', title: 'right back', x: 'X+', y: 'Y+' },
  ];
  return {
    name: 'corner',
    title: 'Corner',
    help: 'Left is towards X-, front is towards Y-.',
    type: 'choice',
    default: () => 'left-front',
    choices: corners.map((corner) => ({ value: corner.value, title: `${corner.title}: ${lies(corner)}` })),
    required: true,
    argument: false,
  };
}

export const touchesInput: Input = {
  name: 'touches',
  title: 'Touches a face',
  help: 'One touch a face is right only where the part stands square to the axes; two find the corner of a part that stands turned.',
  type: 'choice',
  default: () => 'two',
  choices: [
    { value: 'two', title: 'two: the part may stand turned' },
    { value: 'one', title: 'one: the part stands square' },
  ],
  required: false,
  argument: false,
};

export const spacingInput: Input = {
  name: 'spacing',
  title: 'Spacing',
  help: 'From the first touch of a face to the second. The longer, the better the angle. Not used with one touch a face.',
  type: 'length',
  default: () => 20,
  least: () => 5,
  greatest: () => 1000,
  required: false,
  argument: false,
};

export const cornerResults: readonly Result[] = [
  { name: 'cornerX', title: 'the corner in X', kind: 'coordinate' },
  { name: 'cornerY', title: 'the corner in Y', kind: 'coordinate' },
  { name: 'turned', title: 'the angle of the face across Y', kind: 'angle' },
];

/** Two touches a face, so that a part that stands turned is measured right. */
export function mayBeTurned(plan: Plan): boolean {
  return plan.choice('touches') === 'two';
}

export function cornerOf(plan: Plan): typeof turnedCorner {
  return mayBeTurned(plan) ? turnedCorner : squareCorner;
}

/** Where the corner lies from the start, mm. */
export function cornerPlaces(plan: Plan, x: number, y: number): Pick<NominalPart, 'places' | 'results'> {
  return {
    places: [placeAlong('x', x, plan.amount('becomesX')), placeAlong('y', y, plan.amount('becomesY'))],
    results: mayBeTurned(plan) ? { turned: 0 } : {},
  };
}
