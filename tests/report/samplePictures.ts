import { derivedError } from '../../server/probe/derivedError.ts';
import { budgetPicture } from '../../server/report/budgetPicture.ts';
import { historyPicture } from '../../server/report/historyPicture.ts';
import { radiusPicture } from '../../server/report/radiusPicture.ts';
import { aProbe } from '../probe/aProbe.ts';
import { derived, touch } from '../probe/aTouch.ts';

const blind = aProbe({ runout: 0.003, calibration: { harmonics: null, expandedUncertainty: null } });
const edge = derived([touch(1, 'x', 1)], 0.5);
export const budget = derivedError(blind, edge);
const lobed = aProbe({ calibration: { harmonics: [{ order: 3, cosine: 0.003, sine: 0 }] } });
const observed = [0, 72, 144, 216, 288].map((direction) => ({ direction, effectiveRadius: 1.992 }));
export const history = [
  { date: '2025-04-02', effectiveDiameter: 3.9805, expandedUncertainty: null },
  { date: '2025-01-10', effectiveDiameter: 3.981, expandedUncertainty: 0.002 },
  { date: '2025-03-31', effectiveDiameter: 3.9802, expandedUncertainty: 0.0018 },
  { date: '2026-01-11T10:00', effectiveDiameter: 3.9788, expandedUncertainty: 0.0021 },
];

/** Every kind of picture, by what it shows. */
export const pictures: Readonly<Record<string, string>> = {
  'radius with touches': radiusPicture(lobed, { direction: 200, observed }),
  'radius in inches': radiusPicture(lobed, { direction: 0, units: 'inch' }),
  budget: budgetPicture(budget),
  'budget in inches': budgetPicture(budget, 'inch'),
  'an empty budget': budgetPicture(derivedError(lobed, derived([]))),
  history: historyPicture(history),
  'history in inches': historyPicture(history, 'inch'),
  'one calibration': historyPicture(history.slice(0, 1)),
  'no history': historyPicture([]),
};
