import type { CalibrationDesign } from '../probe/calibration/design.ts';
import type { SphereDesign } from '../probe/calibration/designSphere.ts';
import type { DiameterUncertainty } from '../probe/calibration/diameterUncertainty.ts';
import type { Asking } from './asking.ts';
import { counted } from './counted.ts';
import { capitalised, countWord, listed } from './countWords.ts';
import { fineLength } from './fineLength.ts';
import { labelled } from './labelled.ts';
import { orderName, unseenOrderText } from './observabilityText.ts';
import type { Quantities } from './quantities.ts';
import type { Style } from './style.ts';

/** What a design is shown with. */
export interface DesignPage {
  readonly reference: 'ring' | 'plug' | 'sphere';
  /** mm; null: not stated yet. */
  readonly size: number | null;
  readonly referenceUncertaintyStated: boolean;
  /** How many spindle angles the design could use. */
  readonly angles: number;
  /** What the spread of a touch rests on. */
  readonly statedSpread: string;
  /** mm/min of the touches; null: not stated. */
  readonly feed: number | null;
  readonly show: Quantities;
  readonly style: Style;
  readonly width: number;
  readonly asking: Asking;
}

/** Where to touch and what it will tell, before anything is touched. */
export function designText(
  best: CalibrationDesign,
  others: readonly CalibrationDesign[],
  page: DesignPage,
): string {
  const { show, style, width } = page;
  const { orders } = best.observability.unknowns;
  return [
    heading(best.touches.length, page),
    labelled('diameter', sureText(best.uncertainty, page), width, style.bold),
    labelled(
      'unseen lobes',
      best.unseenLobes < 5e-8
        ? 'what the trip model predicts and the design does not solve for leaves the diameter alone'
        : `what the trip model predicts and the design does not solve for adds ${show.error(best.unseenLobes)} (standard) to the diameter`,
      width,
    ),
    labelled('told apart', orders.length === 0 ? 'no lobes' : listed(orders.map(orderName)), width),
    ...best.observability.notObservable.map((unseen) =>
      labelled(
        'not told apart',
        unseenOrderText(unseen, {
          touches: best.touches.length,
          spindles: best.spindles,
          reference: page.reference === 'sphere' ? 'plug' : page.reference,
        }),
        width,
        style.yellow,
      ),
    ),
    ...(best.spindles > 1
      ? []
      : [
          labelled(
            '',
            page.angles > 1
              ? 'run-out of the tip: one spindle angle does not show it; spend more touches, shared out over the angles you offer'
              : `run-out of the tip: a second spindle angle shows it (${page.asking.spindles})`,
            width,
            style.dim,
          ),
        ]),
    labelled(
      'touches',
      `${layoutText(best)}; condition number ${best.observability.condition.toFixed(1)}, ν = ${best.degreesOfFreedom}`,
      width,
    ),
    ...best.touches.map(
      ({ direction, spindle }, index) =>
        `${' '.repeat(8)}${`${index + 1}`.padStart(4)}  ${direction.toFixed(1).padStart(6)}°${spindle === null ? '' : `  spindle ${spindle}°`}\n`,
    ),
    ...others.map((each, index) =>
      labelled(
        index === 0 ? 'instead' : '',
        `${layoutText(each)}: ±${show.error(each.uncertainty.expandedUncertainty)}, sees ${each.observability.unknowns.orders.length === 0 ? 'no lobes' : listed(each.observability.unknowns.orders.map(orderName))}`,
        width,
        style.dim,
      ),
    ),
    closing(page),
  ].join('');
}

/** The same for the 25 touches of a sphere. */
export function sphereDesignText(design: SphereDesign, page: DesignPage): string {
  const { show, width, style } = page;
  return [
    heading(design.touches.length, page),
    labelled('diameter', sureText(design.lateral, page), width, style.bold),
    labelled('axial radius', `±${show.error(design.axial.expandedUncertainty)} (U, 95 %)`, width),
    labelled('told apart', 'lateral and axial radius, three-lobed pre-travel, form', width),
    labelled(
      'touches',
      'the hemisphere of ISO 10360-5, 25 touches (from memory); approach by azimuth and elevation',
      width,
    ),
    ...design.touches.map(
      ({ azimuth, elevation }, index) =>
        `${' '.repeat(8)}${`${index + 1}`.padStart(4)}  ${azimuth.toFixed(1).padStart(6)}°  ${elevation.toFixed(1).replace('-', '−').padStart(6)}°\n`,
    ),
    closing(page),
  ].join('');
}

export function designJson(best: CalibrationDesign, others: readonly CalibrationDesign[]): string {
  return `${JSON.stringify({ ...oneJson(best), alternatives: others.map(oneJson) }, null, 2)}\n`;
}

function oneJson({
  touches,
  directions,
  spindles,
  observability,
  degreesOfFreedom,
  ...rest
}: CalibrationDesign) {
  const { standardUncertainty, expandedUncertainty, coverageFactor } = rest.uncertainty;
  return {
    touches,
    directions,
    spindles,
    standardUncertainty,
    expandedUncertainty,
    coverageFactor,
    unseenLobes: rest.unseenLobes,
    harmonics: observability.unknowns.orders,
    notObservable: observability.notObservable.map(({ order }) => order),
    condition: observability.condition,
    degreesOfFreedom,
  };
}

export function sphereDesignJson({ touches, lateral, axial, degreesOfFreedom }: SphereDesign): string {
  const json = {
    touches,
    standardUncertainty: lateral.standardUncertainty,
    expandedUncertainty: lateral.expandedUncertainty,
    coverageFactor: lateral.coverageFactor,
    axialExpandedUncertainty: axial.expandedUncertainty,
    degreesOfFreedom,
  };
  return `${JSON.stringify(json, null, 2)}\n`;
}

/** A table to fill in: x and y (and z) are what the control latches. */
export function designCsv(
  touches: readonly CalibrationDesign['touches'][number][],
  page: DesignPage,
): string {
  const turned = touches.some(({ spindle }) => spindle !== null);
  const feed = feedCell(page);
  return csv(
    page,
    ['direction', 'x', 'y', 'feed', ...(turned ? ['spindle'] : [])],
    touches.map(({ direction, spindle }) => [
      `${direction}`,
      '',
      '',
      feed,
      ...(turned ? [`${spindle ?? 0}`] : []),
    ]),
  );
}

export function sphereDesignCsv({ touches }: SphereDesign, page: DesignPage): string {
  const feed = feedCell(page);
  return csv(
    page,
    ['azimuth', 'elevation', 'x', 'y', 'z', 'feed'],
    touches.map(({ azimuth, elevation }) => [`${azimuth}`, `${elevation}`, '', '', '', feed]),
  );
}

function csv(
  { reference, show }: DesignPage,
  header: readonly string[],
  rows: readonly (readonly string[])[],
): string {
  const space = header.includes('z') ? 'x, y and z' : 'x and y';
  return [
    `# ${rows.length} touches of a ${reference}. Fill in ${space}, the latched stylus centre, in ${show.units}; feed per minute.`,
    '# Directions are those of the approach: degrees from X+, counter-clockwise seen from +Z.',
    header.join(','),
    ...rows.map((row) => row.join(',')),
    '',
  ].join('\n');
}

function feedCell({ feed, show }: DesignPage): string {
  return feed === null ? '' : String(Number((show.units === 'inch' ? feed / 25.4 : feed).toPrecision(6)));
}

function heading(touches: number, { style, reference, size, show }: DesignPage): string {
  const of = size === null ? '' : ` of ${fineLength(size, show.units)}`;
  return `${style.bold(`${counted(touches, 'touch', 'touches')} of a ${reference}${of}`)}  predicted, nothing has been touched\n`;
}

function sureText(
  { expandedUncertainty, coverageFactor, degreesOfFreedom }: DiameterUncertainty,
  { show, statedSpread, referenceUncertaintyStated, asking }: DesignPage,
): string {
  const nu = degreesOfFreedom === null || degreesOfFreedom > 1000 ? '∞' : degreesOfFreedom.toFixed(1);
  const reference = referenceUncertaintyStated
    ? 'and the reference'
    : `; the reference is not in it (${asking.referenceUncertainty})`;
  return `effective, to ±${show.error(expandedUncertainty)} (U, 95 %, k = ${coverageFactor.toFixed(2)}, ν = ${nu}), from ${statedSpread}${referenceUncertaintyStated ? ' ' : ''}${reference}`;
}

function layoutText({ touches, directions, spindles }: CalibrationDesign): string {
  const each = touches.length / spindles / directions;
  const times =
    each === 1 ? '' : Number.isInteger(each) ? `, each ${countWord(each)} times` : ', some of them repeated';
  return `${capitalised(countWord(directions))} even directions${times}${spindles > 1 ? `, at ${countWord(spindles)} spindle angles` : ''}`;
}

function closing({ width, style, asking }: DesignPage): string {
  return labelled(
    'then',
    `${asking.tableToFillIn}. Clean reference and ball, the feed that the program will measure with, a hand on the stop.`,
    width,
    style.dim,
  );
}
