import * as z from 'zod/mini';
import { partMaterials, stemMaterials } from '../probe/materials.ts';
import { builtInValues as builtIn } from './builtInValues.ts';

/** The profile as its file has it: the one definition behind the type, the schema and the validation. */
export type ProfileFile = z.infer<ReturnType<typeof profileDefinition>>;

/** What a number is, so that it can be turned into millimetres and said with its unit. */
export type Quantity = 'length' | 'feed' | 'acceleration';

export interface About {
  readonly title?: string;
  readonly description: string;
  readonly default?: unknown;
}

/** Descriptions and defaults, as the schema shows them. */
export const abouts = z.registry<About>();
/** Which numbers are in the file's units. */
export const quantities = z.registry<{ readonly quantity: Quantity }>();

/** The definition, with the ids of the rules that exist. */
export function profileDefinition(ruleIds: readonly string[]) {
  const file = z.strictObject({
    $schema: about(z.string(), 'Where an editor finds the schema.'),
    units: about(z.enum(['mm', 'inch']), 'Unit of every length and feed in this file.', 'mm'),
    dialect: about(z.enum(['rs274ngc', 'macro']), 'Dialect of the programs. Absent: detected per file.'),
    probe: probeDefinition,
    machine: machineDefinition,
    feeds: group('What generated routines use, per minute.', {
      positioning: feed('Between features.', builtIn.feeds.positioning),
      search: feed('The first touch, that looks for the surface.', builtIn.feeds.search),
      measuring: feed(
        'The touch that counts. Absent: the feed of the calibration, where it states one.',
        builtIn.feeds.measuring,
      ),
    }),
    routines: group('What generated routines may use.', {
      parameters: group(
        'Common variables of the macro dialect, which no program of the shop needs to keep.',
        {
          first: commonVariable('The lowest number.', builtIn.routines.parameters.first),
          last: commonVariable('The highest number.', builtIn.routines.parameters.last),
        },
      ),
    }),
    overtravelSafetyFactor: about(
      z.number().check(z.gte(1)),
      'The stopping distance must stay under the overtravel divided by this.',
      builtIn.overtravelSafetyFactor,
    ),
    placementUncertainty: length('How far a part may stand off its place.', z.nonnegative()),
    effectiveDiameterParameter: about(
      z.string().check(z.regex(/^#(\d+|<[^<>]+>)$/)),
      'The program variable that holds the effective diameter, such as #5410, #520 or #<_probe_diameter>.',
    ),
    rules: group(
      'Severity of single rules.',
      Object.fromEntries(
        ruleIds.map((id) => [
          id,
          about(z.enum(['off', 'info', 'warning', 'error']), `Severity of the rule ${id}, or off.`),
        ]),
      ),
    ),
  });
  return described(file, 'The probe and the machine that it hangs in: one file at the workspace root.');
}

/** #100 to #999 belong to the programs; #1 to #33 are a call's own, those above are the control's (common practice, no source). */
function commonVariable(description: string, usual: number) {
  return about(z.int().check(z.gte(100), z.lte(999)), description, usual);
}

const harmonics = about(
  z.array(
    described(
      z.strictObject({
        order: described(
          z.int().check(z.gte(1), z.lte(90)),
          'Lobes in one turn: 1 is run-out of the tip, 3 the three supports.',
        ),
        cosine: length('Amplitude of cos(order·θ).'),
        sine: length('Amplitude of sin(order·θ).'),
      }),
      'One order of the lobes.',
    ),
  ),
  'Lobes of the effective radius over the direction of approach (X+ = 0°, counter-clockwise seen from +Z), at the spindle angle of the calibration. Absent: never observed; []: observed and none.',
);

const calibrationDefinition = group(
  'The current calibration. Without effectiveDiameter it counts as none, except for its feed.',
  {
    date: about(
      z.string().check(z.regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])([T ].*)?$/)),
      'Day of the calibration, as 2025-03-31.',
    ),
    spindle: about(
      z.number(),
      'Spindle angle of the calibration, degrees counter-clockwise seen from +Z. Absent: the angle at which the probe always hangs.',
    ),
    effectiveDiameter: length(
      'Twice the mean effective radius: actual diameter less twice the mean pre-travel. At most tipDiameter.',
      z.positive(),
    ),
    expandedUncertainty: length('U of the effective diameter.', z.nonnegative()),
    coverageFactor: about(
      z.number().check(z.positive()),
      'k of expandedUncertainty.',
      builtIn.coverageFactor,
    ),
    feed: feed('Feed of the touches of the calibration, per minute.'),
    temperature: about(z.number().check(z.gt(-273.15)), 'Temperature at the calibration, °C.'),
    residualStandardDeviation: length('Standard deviation of the residuals.', z.nonnegative()),
    degreesOfFreedom: about(z.number().check(z.nonnegative()), 'Of residualStandardDeviation.'),
    harmonics,
    touches: about(z.string(), 'The CSV file with the touches of the calibration.'),
  },
);

const probeDefinition = group('The touch probe and its stylus.', {
  tool: about(z.int().check(z.nonnegative()), 'Tool number of the probe.'),
  tipDiameter: length('Actual diameter of the ball, by micrometer.', z.positive(), builtIn.tipDiameter),
  stylus: group('The stylus.', {
    length: length('Free length below the supports.', z.positive(), builtIn.stylus.length),
    stemDiameter: length('Diameter of the stem. Absent: two thirds of the tip.', z.positive()),
    material: about(z.enum(keys(stemMaterials)), 'What the stem is made of.', builtIn.stylus.material),
  }),
  seat: group('The three supports that the stylus carrier rests on.', {
    radius: length('Radius of the circle of the supports.', z.positive(), builtIn.seat.radius),
    preload: about(z.number().check(z.positive()), 'Force that seats the carrier, N.', builtIn.seat.preload),
    angle: about(
      z.number(),
      'One direction of low trip force, degrees from X+. Absent: unknown, 0 is taken and the lobes count in the uncertainty too.',
    ),
  }),
  overtravel: group('How far the stylus may go on after the trip.', {
    lateral: length('Sideways.', z.positive(), builtIn.overtravel.lateral),
    axial: length('Along the axis.', z.positive(), builtIn.overtravel.axial),
  }),
  repeatability: length(
    'One standard deviation of a touch in one direction. Absent: the residual of the calibration, where it states one.',
    z.nonnegative(),
    builtIn.repeatability,
  ),
  release: length('How far to back off before the probe reseats.', z.nonnegative(), builtIn.release),
  runout: length('Amplitude of the run-out of the tip, where its direction is not known.', z.nonnegative()),
  history: about(
    z.string().check(z.minLength(1)),
    'The file of earlier calibrations, seen from the folder of this profile: each one that is put into the profile is added there.',
  ),
  calibration: calibrationDefinition,
});

const machineDefinition = group('The machine and its control.', {
  deceleration: about(
    inFileUnits(z.number().check(z.positive()), 'acceleration'),
    'Deceleration after the trip, units per second squared (100 mm/s² built in).',
    builtIn.machine.deceleration,
  ),
  reactionTime: seconds('From the trip until the axis begins to brake', builtIn.machine.reactionTime),
  tripLatency: seconds('From the trip until the position is latched', builtIn.machine.tripLatency),
  latchPeriod: seconds('Time between two looks of the control at the probe', builtIn.machine.latchPeriod),
  resolution: length('Smallest step of a latched coordinate.', z.nonnegative(), builtIn.machine.resolution),
  positioningUncertainty: length(
    'Expanded uncertainty (k = 2) of a coordinate of the machine.',
    z.nonnegative(),
    builtIn.machine.positioningUncertainty,
  ),
  afterTrip: about(
    z.enum(['stops-past', 'returns-to-trip']),
    'Where the axis stands after a touch: at rest past the trip, or returned to the latched position.',
    builtIn.machine.afterTrip,
  ),
  travel: group('Length of each axis.', {
    x: length('X.', z.positive()),
    y: length('Y.', z.positive()),
    z: length('Z.', z.positive()),
  }),
  spindleOrientation: about(
    z.boolean(),
    'True where M19 turns the spindle to an angle.',
    builtIn.machine.spindleOrientation,
  ),
  temperatureSpread: about(
    z.number().check(z.nonnegative()),
    'How far the temperature of the part may be off, K. Absent: not counted, and said.',
  ),
  material: about(
    z.enum(keys(partMaterials)),
    'What the part is made of, for its expansion.',
    builtIn.machine.material,
  ),
});

function group<Shape extends Record<string, z.core.SomeType>>(description: string, shape: Shape) {
  return about(z.strictObject(shape), description);
}

/** A length in the file's units; the built-in value is in mm. */
function length(description: string, check?: z.core.$ZodCheck<number>, builtInMm?: number) {
  const bare = check === undefined ? z.number() : z.number().check(check);
  const said = builtInMm === undefined ? description : `${description} Built in: ${builtInMm} mm.`;
  return about(inFileUnits(bare, 'length'), said, builtInMm);
}

function feed(description: string, builtInMm?: number) {
  const said = builtInMm === undefined ? description : `${description} Built in: ${builtInMm} mm/min.`;
  return about(inFileUnits(z.number().check(z.positive()), 'feed'), said, builtInMm);
}

function seconds(description: string, builtInSeconds: number) {
  return about(z.number().check(z.nonnegative()), `${description}, seconds.`, builtInSeconds);
}

/** Everything is optional. */
function about<Type extends z.core.$ZodType>(schema: Type, description: string, builtInValue?: unknown) {
  return z.optional(described(schema, description, builtInValue));
}

function described<Type extends z.core.$ZodType>(
  schema: Type,
  description: string,
  builtInValue?: unknown,
): Type {
  abouts.add(schema, builtInValue === undefined ? { description } : { description, default: builtInValue });
  return schema;
}

function inFileUnits<Type extends z.core.$ZodType>(schema: Type, quantity: Quantity): Type {
  quantities.add(schema, { quantity });
  return schema;
}

function keys<Key extends string>(record: Readonly<Record<Key, unknown>>): [Key, ...Key[]] {
  return Object.keys(record) as [Key, ...Key[]];
}
