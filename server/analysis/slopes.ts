import { binary, call } from '../program/arithmetic.ts';
import type { Traced, Unknown, Value } from '../program/value.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { BinaryOperator, FunctionName } from '../syntax/tree.ts';

/** A number, and how fast it changes along some way. */
export interface Slope {
  readonly at: number;
  readonly by: number;
}

/** What an unknown is at a place, and how fast it changes along a way; null where neither can be told. */
export type Along = (unknown: Unknown) => Slope | null;

const degrees = 180 / Math.PI;

/**
 * The value at a place and its exact derivative along a way (forward differentiation, textbook calculus); null where an
 * unknown has none there, or where a step, a remainder or a comparison of what changes enters.
 */
export function slopeOf(value: Value, along: Along, dialect: DialectName): Slope | null {
  return new Differentiation(along, dialect).of(value);
}

class Differentiation {
  private readonly known = new Map<string, Slope | null>();

  constructor(
    private readonly along: Along,
    private readonly dialect: DialectName,
  ) {}

  of(value: Value): Slope | null {
    return typeof value === 'number' ? { at: value, by: 0 } : this.sum(value);
  }

  private sum({ terms, constant }: Traced): Slope | null {
    let [at, by] = [constant, 0];
    for (const { unknown, coefficient } of terms) {
      const part = this.unknown(unknown);
      if (part === null) return null;
      at += coefficient * part.at;
      by += coefficient * part.by;
    }
    return Number.isFinite(at) && Number.isFinite(by) ? { at, by } : null;
  }

  private unknown(u: Unknown): Slope | null {
    if (u.kind !== 'computed') return this.along(u);
    const known = this.known.get(u.key);
    if (known !== undefined) return known;
    const [a, b] = u.operands.map((operand) => this.of(operand));
    const found = a && b !== null ? this.apply(u.operator, a, b) : null;
    this.known.set(u.key, found);
    return found;
  }

  private apply(operator: BinaryOperator | FunctionName, a: Slope, b: Slope | undefined): Slope | null {
    const isBinary =
      b !== undefined && (/^\W+$/.test(operator) || /^(MOD|AND|OR|XOR|[EGLN][EQT])$/.test(operator));
    const at = isBinary
      ? binary(operator as BinaryOperator, a.at, b.at, this.dialect)
      : call(operator as FunctionName, a.at, b?.at, this.dialect);
    if (typeof at !== 'number') return null;
    const by = a.by === 0 && (b?.by ?? 0) === 0 ? 0 : derivative(operator, at, a, b ?? { at: 1, by: 0 });
    return by === null ? null : { at, by };
  }
}

function derivative(operator: string, at: number, a: Slope, b: Slope): number | null {
  switch (operator) {
    case '+':
      return a.by + b.by;
    case '-':
      return a.by - b.by;
    case '*':
      return a.by * b.at + a.at * b.by;
    case '/':
      return (a.by - at * b.by) / b.at;
    case '**':
    case 'POW':
      return b.by === 0 ? b.at * a.at ** (b.at - 1) * a.by : null;
    case 'ABS':
      return Math.sign(a.at) * a.by;
    case 'SQRT':
      return a.by / (2 * at);
    case 'SIN':
      return (Math.cos(a.at / degrees) / degrees) * a.by;
    case 'COS':
      return (-Math.sin(a.at / degrees) / degrees) * a.by;
    case 'TAN':
      return ((1 + at * at) / degrees) * a.by;
    case 'ATAN':
      return ((a.by * b.at - a.at * b.by) / (a.at * a.at + b.at * b.at)) * degrees;
    case 'ASIN':
      return (degrees * a.by) / Math.sqrt(1 - a.at * a.at);
    case 'ACOS':
      return (-degrees * a.by) / Math.sqrt(1 - a.at * a.at);
    default:
      return null;
  }
}
