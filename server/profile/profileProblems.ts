import { findNodeAtLocation, type Node } from 'jsonc-parser';
import type * as z from 'zod/mini';
import { closestName } from './closestName.ts';
import { keysOf } from './definitionWalk.ts';
import { keyOf, type TextProblem } from './profileText.ts';

/** What validation found, in words, each at its place in the text. */
export function problemsOf(
  issues: readonly z.core.$ZodIssue[],
  root: Node,
  definition: z.core.$ZodType,
): TextProblem[] {
  const keys = keysOf(definition);
  const problems = issues.flatMap((issue) =>
    issue.code === 'unrecognized_keys'
      ? issue.keys.map((name) => unknownKey([...issue.path, name], root, keys))
      : issue.code === 'invalid_key'
        ? [unknownKey(issue.path, root, keys)]
        : [wrongValue(issue, root)],
  );
  return problems.sort((left, right) => left.offset - right.offset);
}

/** The range of the value at a path, or of the nearest group around it. */
export function placeOf(root: Node, path: readonly PropertyKey[]): { offset: number; length: number } {
  for (let depth = path.length; depth > 0; depth -= 1) {
    const node = findNodeAtLocation(root, path.slice(0, depth) as (string | number)[]);
    if (node !== undefined) return { offset: node.offset, length: node.length };
  }
  return { offset: root.offset, length: root.length };
}

function unknownKey(path: readonly PropertyKey[], root: Node, keys: readonly string[]): TextProblem {
  const key = keyOf(path);
  const name = String(path.at(-1));
  const value = findNodeAtLocation(root, path as (string | number)[]);
  const place = value?.parent?.children?.[0] ?? root;
  const meant = meantKey(name, keyOf(path.slice(0, -1)), keys);
  const hint = meant === null ? '' : ` Did you mean ${meant}?`;
  return { key, message: `${key}: there is no such key.${hint}`, offset: place.offset, length: place.length };
}

/** A neighbour of a like name, or the same name elsewhere. */
function meantKey(name: string, group: string, keys: readonly string[]): string | null {
  const prefix = group === '' ? '' : `${group.replaceAll(/\[\d+\]/g, '')}.`;
  const siblings = keys
    .filter((key) => key.startsWith(prefix))
    .map((key) => key.slice(prefix.length))
    .filter((key) => !key.includes('.') && key !== '$schema');
  const sibling = closestName(name, siblings);
  if (sibling !== null) return `"${sibling}"`;
  const elsewhere = keys.find((key) => key.endsWith(`.${name}`) || key === name);
  return elsewhere === undefined ? null : `"${elsewhere}"`;
}

function wrongValue(issue: z.core.$ZodIssue, root: Node): TextProblem {
  const key = keyOf(issue.path);
  const node = issue.path.length === 0 ? root : findNodeAtLocation(root, issue.path as (string | number)[]);
  const place = placeOf(root, issue.path);
  if (node === undefined) return { key, message: `${key} is missing.`, ...place };
  const subject = key === '' ? 'The file' : key;
  if (typeof node.value === 'number' && !Number.isFinite(node.value))
    return { key, message: `${subject} is too large a number.`, ...place };
  return { key, message: `${subject} is ${shown(node)}; it must be ${wanted(issue, node)}`, ...place };
}

function shown(node: Node): string {
  if (node.type === 'object') return 'a group { … }';
  if (node.type === 'array') return 'a list [ … ]';
  const text = JSON.stringify(node.value) ?? 'nothing';
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}

const types: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  tuple: 'a list [ … ]',
  record: 'a group { … }',
  string: 'a text',
  boolean: 'true or false',
  object: 'a group { … }',
  array: 'a list [ … ]',
};

function wanted(issue: z.core.$ZodIssue, node: Node): string {
  switch (issue.code) {
    case 'invalid_type':
      return `${types[issue.expected] ?? issue.expected}.`;
    case 'too_small':
      if (issue.origin === 'array') return `a list of ${issue.minimum}.`;
      return `${issue.inclusive ? 'at least' : 'greater than'} ${issue.minimum}.`;
    case 'too_big':
      if (issue.origin === 'array') return `a list of at most ${issue.maximum}.`;
      return `${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum}.`;
    case 'invalid_value':
      return oneOf(issue.values.map(String), String(node.value));
    case 'invalid_format':
      return formatOf(issue.path);
    default:
      return 'another value.';
  }
}

function oneOf(values: readonly string[], given: string): string {
  const meant = closestName(given, values);
  const hint = meant === null ? '' : ` Did you mean "${meant}"?`;
  const quoted = values.map((value) => `"${value}"`);
  return `${quoted.slice(0, -1).join(', ')} or ${quoted.at(-1)}.${hint}`;
}

function formatOf(path: readonly PropertyKey[]): string {
  return path.at(-1) === 'date'
    ? 'a day such as "2025-03-31".'
    : 'a parameter such as "#5410" or "#<_probe_diameter>".';
}
