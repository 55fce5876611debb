import * as z from 'zod/mini';
import { quantities } from './profileDefinition.ts';

/** Every full key of a definition, groups included: `probe`, `probe.tipDiameter`… Items of lists have none. */
export function keysOf(definition: z.core.$ZodType, prefix = ''): readonly string[] {
  const type = unwrap(definition);
  if (!(type instanceof z.ZodMiniObject)) return [];
  return Object.entries<z.core.$ZodType>(type.shape).flatMap(([name, schema]) => {
    const key = prefix === '' ? name : `${prefix}.${name}`;
    return [key, ...keysOf(schema, key)];
  });
}

/** A copy of a valid value with every length, feed and acceleration multiplied by `factor`. */
export function inMillimetres<Value>(definition: z.core.$ZodType, value: Value, factor: number): Value {
  return scaled(definition, value, factor) as Value;
}

function scaled(definition: z.core.$ZodType, value: unknown, factor: number): unknown {
  const type = unwrap(definition);
  if (typeof value === 'number') return quantities.has(type) ? value * factor : value;
  if (type instanceof z.ZodMiniArray && Array.isArray(value))
    return value.map((item) => scaled(type._zod.def.element, item, factor));
  if (!(type instanceof z.ZodMiniObject) || typeof value !== 'object' || value === null) return value;
  const shape: Record<string, z.core.$ZodType> = type.shape;
  const entries = Object.entries(value).map(([name, item]) => {
    const schema = shape[name];
    return [name, schema === undefined ? item : scaled(schema, item, factor)];
  });
  return Object.fromEntries(entries);
}

function unwrap(definition: z.core.$ZodType): z.core.$ZodType {
  return definition instanceof z.ZodMiniOptional ? unwrap(definition._zod.def.innerType) : definition;
}
