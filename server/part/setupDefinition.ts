import * as z from 'zod/mini';

/** The setup as its file has it: the one definition behind the type, the schema and the validation. */
export type SetupFile = z.infer<typeof setupDefinition>;
export type SolidFile = NonNullable<SetupFile['part']>[number];

interface About {
  readonly description: string;
  readonly default?: unknown;
}

const abouts = z.registry<About>();

/** JSON schema (draft 2020-12) of the file, from the one definition. */
export function setupSchema(): object {
  return z.toJSONSchema(setupDefinition, { metadata: abouts });
}

/** Names of the work offsets that a setup may speak of: G54.1 has 48 of them. */
const offsetName = /^G5(4|4\.1 P([1-9]|[1-3]\d|4[0-8])|5|6|7|8|9|9\.[123])$/;
/** `G54.x`, `G54.xy@30` (along a direction, degrees from X), or a parameter. */
const expectName =
  /^(G(5(4|4\.1 P([1-9]|[1-3]\d|4[0-8])|5|6|7|8|9|9\.[123]|2)|92)\.([xyzabc]|xy@-?\d{1,3}(\.\d+)?)|#(\d+|<[^<>]+>))$/;
const parameterName = /^#(\d+|<[^<>]+>)$/;

/** Far more than any machine moves: a length that is not, is a slip. */
const farthest = 1_000_000;

const length = (description: string, least = -farthest) =>
  described(z.number().check(z.gte(least), z.lte(farthest)), description);
const positive = (description: string) =>
  described(z.number().check(z.positive(), z.lte(farthest)), description);
const point = (description: string) =>
  described(z.tuple([length('X.'), length('Y.'), length('Z.')]), description);

const shapes = ['block', 'pocket', 'cylinder', 'bore'] as const;

const solidDefinition = described(
  z.strictObject({
    add: about(z.enum(shapes), 'Material: a block (min, max) or a cylinder (center, diameter, top, depth).'),
    cut: about(
      z.enum(shapes),
      'What is cut out: a pocket (min, max) or a bore (center, diameter, top, depth).',
    ),
    min: z.optional(point('Lowest corner of a block or pocket, before it is turned.')),
    max: z.optional(point('Highest corner of a block or pocket, before it is turned.')),
    rotation: about(
      z.number().check(z.gte(-360), z.lte(360)),
      'Degrees that a block or pocket is turned about Z through its centre, counter-clockwise seen from above.',
      0,
    ),
    center: z.optional(
      described(z.tuple([length('X.'), length('Y.')]), 'Axis of a cylinder or bore, X and Y.'),
    ),
    diameter: z.optional(positive('Of a cylinder or bore.')),
    top: z.optional(length('Height of the upper end of a cylinder or bore.')),
    depth: z.optional(positive('From the top of a cylinder or bore to its lower end.')),
  }),
  'One solid: put on with "add" or cut out with "cut".',
);

export const setupDefinition = described(
  z.strictObject({
    $schema: about(z.string(), 'Where an editor finds the schema.'),
    units: about(z.enum(['mm', 'inch']), 'Unit of every length in this file.', 'mm'),
    start: point('Machine position of the spindle’s gauge line when the program starts.'),
    spindle: about(
      z.number().check(z.gte(-360), z.lte(360)),
      'Angle of the spindle at the start, degrees.',
      0,
    ),
    tool: about(z.int().check(z.nonnegative()), 'Number of the tool in the spindle at the start.'),
    tools: about(
      z.record(
        z.string().check(z.regex(/^\d{1,8}$/)),
        described(
          z.strictObject({
            length: length('From the gauge line to the tip.', 0),
            diameter: z.optional(length('As the control has it.', 0)),
          }),
          'One tool.',
        ),
      ),
      'The control’s tool table, by tool number.',
    ),
    workOffsets: about(
      z.record(z.string().check(z.regex(offsetName)), point('Origin in machine coordinates.')),
      'Work offsets before the run, G54 to G59.3.',
    ),
    part: about(
      z.array(solidDefinition).check(z.maxLength(200)),
      'The part in machine coordinates, built up in this order.',
    ),
    uncertainty: about(
      z.strictObject({
        x: z.optional(length('Along X.', 0)),
        y: z.optional(length('Along Y.', 0)),
        z: z.optional(length('Along Z.', 0)),
        degrees: about(z.number().check(z.gte(0), z.lte(45)), 'Turned about Z.', 0),
      }),
      'How far the part may stand off its place.',
    ),
    expect: about(
      z.record(
        z.string().check(z.regex(expectName)),
        described(
          z.strictObject({
            value: length('Where it should come to lie; of a work offset in machine coordinates.'),
            tolerance: length('How far it may be off.', 0),
          }),
          'What is right.',
        ),
      ),
      'What the program should leave behind: "G54.x" for a work offset, "G54.xy@30" for how far it lies in a direction (degrees from X), "#100" or "#<name>" for a length in a parameter.',
    ),
    parameters: about(
      z.record(z.string().check(z.regex(parameterName)), z.number()),
      'Values set before the run, as the program would hold them: "#100", "#<_name>".',
    ),
    wrongToolLength: about(
      length('', 0),
      'How far the tool’s true length may be off its entry in the table.',
    ),
    seed: about(z.int().check(z.nonnegative()), 'Where the random numbers of --runs begin.', 1),
  }),
  'What stands in the machine before a program is rehearsed.',
);

function about<Type extends z.core.$ZodType>(schema: Type, description: string, builtIn?: unknown) {
  return z.optional(described(schema, description, builtIn));
}

function described<Type extends z.core.$ZodType>(schema: Type, description: string, builtIn?: unknown): Type {
  abouts.add(schema, builtIn === undefined ? { description } : { description, default: builtIn });
  return schema;
}
