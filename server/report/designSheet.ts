import type { CalibrationDesign, Designs, SpindleShare } from '../probe/calibration/design.ts';
import type { SphereDesign } from '../probe/calibration/designSphere.ts';
import type { DiameterUncertainty } from '../probe/calibration/diameterUncertainty.ts';
import type { Asking } from './asking.ts';
import { counted } from './counted.ts';
import { capitalised, countWord, listed } from './countWords.ts';
import { fineLength } from './fineLength.ts';
import { orderName, unseenOrderText } from './observabilityText.ts';
import type { Quantities } from './quantities.ts';
import { column, type Row, row, rowsUnder, type Sheet, type Table } from './sheet.ts';

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
  readonly asking: Asking;
}

/** Where to touch and what it will tell, before anything is touched. */
export function designSheet({ best, others, richer }: Designs, page: DesignPage): Sheet {
  const { orders } = best.observability.unknowns;
  return {
    ...heading(best.touches.length, page),
    rows: [
      row('diameter', sureText(best.uncertainty, page), 'main'),
      ...(richer === null ? [] : [row('', richerText(richer, page.show), 'warning')]),
      row('unseen lobes', unseenLobesText(best, page.show)),
      row('told apart', orders.length === 0 ? 'no lobes' : listed(orders.map(orderName))),
      ...notToldApart(best, page),
      row(
        'touches',
        `${layoutText(best)}; condition number ${best.observability.condition.toFixed(1)}, ν = ${best.degreesOfFreedom}`,
        'plain',
        touchTable(best.touches),
      ),
      ...rowsUnder(
        'instead',
        others.map(
          (each) =>
            `${layoutText(each)}: ±${page.show.error(each.uncertainty.expandedUncertainty)}, sees ${each.observability.unknowns.orders.length === 0 ? 'no lobes' : listed(each.observability.unknowns.orders.map(orderName))}`,
        ),
        'aside',
      ),
    ],
    notes: [closing(page)],
  };
}

function richerText({ touches, uncertainty }: CalibrationDesign, show: Quantities): string {
  return `one degree of freedom is left, so the spread of the touches is hardly known: ${countWord(touches.length)} touches make it ±${show.error(uncertainty.expandedUncertainty)}`;
}

function unseenLobesText({ unseenLobes }: CalibrationDesign, show: Quantities): string {
  const which = 'what the trip model predicts and the design does not solve for';
  return unseenLobes < 5e-8
    ? `${which} leaves the diameter alone`
    : `${which} adds ${show.error(unseenLobes)} (standard) to the diameter`;
}

function notToldApart(best: CalibrationDesign, page: DesignPage): Row[] {
  const runout =
    page.angles > 1
      ? 'run-out of the tip: one spindle angle does not show it; spend more touches, shared out over the angles you offer'
      : `run-out of the tip: a second spindle angle shows it (${page.asking.spindles})`;
  const unseen = best.observability.notObservable.map((each) =>
    unseenOrderText(each, {
      touches: best.touches.length,
      spindles: best.shares.length,
      reference: page.reference === 'sphere' ? 'plug' : page.reference,
    }),
  );
  const label = 'not told apart';
  return [
    ...rowsUnder(label, unseen, 'warning'),
    ...(best.shares.length > 1 ? [] : [row(unseen.length === 0 ? label : '', runout, 'aside')]),
  ];
}

function touchTable(touches: CalibrationDesign['touches']): Table {
  const turned = touches.some(({ spindle }) => spindle !== null);
  return {
    columns: [column('Touch'), column('Approach'), ...(turned ? [column('Spindle', 'spindle ')] : [])],
    rows: touches.map(({ direction, spindle }, index) => ({
      cells: [`${index + 1}`, `${direction.toFixed(1)}°`, ...(turned ? [`${spindle ?? 0}°`] : [])],
      tone: 'plain',
    })),
  };
}

/** The same for the 25 touches of a sphere. */
export function sphereDesignSheet(design: SphereDesign, page: DesignPage): Sheet {
  return {
    ...heading(design.touches.length, page),
    rows: [
      row('diameter', sureText(design.lateral, page), 'main'),
      row('axial radius', `±${page.show.error(design.axial.expandedUncertainty)} (U, 95 %)`),
      row('told apart', 'lateral and axial radius, three-lobed pre-travel, form'),
      row(
        'touches',
        'the hemisphere of ISO 10360-5, 25 touches (from memory); approach by azimuth and elevation',
        'plain',
        {
          columns: [column('Touch'), column('Azimuth'), column('Elevation')],
          rows: design.touches.map(({ azimuth, elevation }, index) => ({
            cells: [`${index + 1}`, `${azimuth.toFixed(1)}°`, `${elevation.toFixed(1).replace('-', '−')}°`],
            tone: 'plain',
          })),
        },
      ),
    ],
    notes: [closing(page)],
  };
}

export function designJson({ best, others }: Designs): string {
  return `${JSON.stringify({ ...oneJson(best), alternatives: others.map(oneJson) }, null, 2)}\n`;
}

function oneJson({ touches, shares, observability, degreesOfFreedom, ...rest }: CalibrationDesign) {
  const { standardUncertainty, expandedUncertainty, coverageFactor } = rest.uncertainty;
  return {
    touches,
    directions: Math.max(...shares.map(({ directions }) => directions)),
    spindles: shares.length,
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

function heading(touches: number, { reference, size, show }: DesignPage): Pick<Sheet, 'name' | 'about'> {
  const of = size === null ? '' : ` of ${fineLength(size, show.units)}`;
  return {
    name: `${counted(touches, 'touch', 'touches')} of a ${reference}${of}`,
    about: 'predicted, nothing has been touched',
  };
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

function layoutText({ shares }: CalibrationDesign): string {
  const [first] = shares;
  const isAlike = shares.every(
    ({ touches, directions }) => touches === first?.touches && directions === first.directions,
  );
  if (shares.length === 1) return capitalised(shareText(shares[0]));
  if (isAlike) return `${capitalised(shareText(first))}, at ${countWord(shares.length)} spindle angles`;
  return capitalised(listed(shares.map((share) => `${shareText(share)} at spindle ${share.spindle ?? 0}°`)));
}

function shareText(share: SpindleShare | undefined): string {
  if (share === undefined) return 'none';
  const each = share.touches / share.directions;
  const times =
    each === 1 ? '' : Number.isInteger(each) ? `, each ${countWord(each)} times` : ', some of them repeated';
  return `${countWord(share.directions)} even directions${times}`;
}

function closing({ asking }: DesignPage): Row {
  return row(
    'then',
    `${asking.tableToFillIn}. Clean reference and ball, the feed that the program will measure with, a hand on the stop.`,
    'aside',
  );
}
