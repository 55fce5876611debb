import type { ParameterExpression } from '../syntax/tree.ts';

/** As the analysis names it, without `#`: "5061", "edge"; null where the program computes the number. */
export function parameterName({ index }: ParameterExpression): string | null {
  if ('name' in index) return index.name;
  return 'number' in index ? String(index.number) : null;
}

/** As a program writes it: `#5061`, `#<edge>`. */
export function shownParameter(name: string): string {
  return /^\d+$/.test(name) ? `#${name}` : `#<${name}>`;
}
