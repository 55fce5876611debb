import * as z from 'zod/mini';
import { ruleIds } from '../checks/registry.ts';
import { abouts, profileDefinition, type Quantity, quantities } from '../profile/profileDefinition.ts';

/** One key of the profile, as its definition has it. */
export interface ProfileEntry {
  /** `probe.stylus.length`. */
  readonly key: string;
  readonly name: string;
  readonly description: string;
  /** The built-in value (lengths in mm); undefined: none. */
  readonly builtIn: unknown;
  /** null: a number without a unit of the file, or no number. */
  readonly quantity: Quantity | null;
  /** Keys inside, for a group; null: a value. */
  readonly inside: readonly ProfileEntry[] | null;
}

/** Every key that a profile can have, in the order of its definition; `$schema`, which is the editor's, left out. */
export function profileEntries(): readonly ProfileEntry[] {
  return entriesOf(profileDefinition(ruleIds), '').filter(({ name }) => name !== '$schema');
}

function entriesOf(definition: z.core.$ZodType, prefix: string): ProfileEntry[] {
  const type = unwrapped(definition);
  if (!(type instanceof z.ZodMiniObject)) return [];
  return Object.entries<z.core.$ZodType>(type.shape).map(([name, schema]) => entryOf(name, schema, prefix));
}

function entryOf(name: string, schema: z.core.$ZodType, prefix: string): ProfileEntry {
  const key = prefix === '' ? name : `${prefix}.${name}`;
  const type = unwrapped(schema);
  const about = abouts.get(type) ?? abouts.get(schema);
  return {
    key,
    name,
    description: about?.description ?? '',
    builtIn: about?.default,
    quantity: quantities.get(type)?.quantity ?? null,
    inside: type instanceof z.ZodMiniObject ? entriesOf(type, key) : null,
  };
}

function unwrapped(definition: z.core.$ZodType): z.core.$ZodType {
  return definition instanceof z.ZodMiniOptional ? unwrapped(definition._zod.def.innerType) : definition;
}
