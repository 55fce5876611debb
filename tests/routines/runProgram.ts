import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import type { Block, Expression, Flow, Word } from '../../server/syntax/tree.ts';
import type { Point, TestMachine } from './testMachine.ts';

export interface Outcome {
  readonly ended: 'end' | 'message' | 'alarm';
  readonly message: string | null;
  /** Work offsets written, mm: system (G54 = 1) to origin. */
  readonly written: ReadonlyMap<number, Readonly<Record<string, number>>>;
  /** Parameters by name (`bore_diameter_x`, `114`), in program units. */
  readonly parameters: ReadonlyMap<string, number>;
  readonly modes: Readonly<Record<string, string>>;
  readonly feed: number;
  /** mm, by the tool's number. */
  readonly toolLengths: ReadonlyMap<number, number>;
  /** What was logged or printed. */
  readonly printed: readonly string[];
}

/** The length in force before, mm. */
export const lengthAtStart = 120;

/** Other than a routine wants, so that what it does not put back shows. */
export const modesAtStart: Readonly<Record<string, string>> = {
  plane: 'G18',
  units: 'G21',
  distance: 'G91',
  feedMode: 'G93',
  path: 'G64',
  offset: 'G54',
};
export const feedAtStart = 777;

type Frame = Map<string, number>;
const axes = ['X', 'Y', 'Z'] as const;
const groups: Readonly<Record<string, readonly string[]>> = {
  motion: ['G0', 'G1', 'G38.3', 'G80'],
  plane: ['G17', 'G18', 'G19'],
  units: ['G20', 'G21'],
  distance: ['G90', 'G91'],
  feedMode: ['G93', 'G94', 'G95'],
  path: ['G61', 'G64'],
  offset: ['G54', 'G55', 'G56', 'G57', 'G58', 'G59'],
};

/**
 * Runs what our routines write, on numbers, by the plain meaning of each block: a second reading of both dialects that shares
 * nothing with `server/program` but the parser. Anything it does not know is an error of the test.
 */
export function runProgram(
  text: string,
  dialect: DialectName,
  machine: TestMachine,
  origins: ReadonlyMap<number, Point>,
  given: {
    readonly modes?: Readonly<Record<string, string>>;
    readonly parameters?: Readonly<Record<string, number>>;
  } = {},
): Outcome {
  return new Runner(text, dialect, machine, origins, given.modes ?? {}, given.parameters ?? {}).run();
}

class Runner {
  private readonly blocks: readonly Block[];
  private readonly globals: Frame = new Map();
  private locals: Frame = new Map();
  private readonly calls: { readonly line: number; readonly locals: Frame }[] = [];
  private readonly origins: Map<number, number[]>;
  private modes: Record<string, string>;
  private feed = feedAtStart;
  private saved: { modes: Record<string, string>; feed: number } | null = null;
  private readonly written = new Map<number, Record<string, number>>();
  private readonly toolLengths = new Map<number, number>();
  private readonly printed: string[] = [];
  private message: string | null = null;
  private line = 0;

  constructor(
    text: string,
    private readonly dialect: DialectName,
    private readonly machine: TestMachine,
    origins: ReadonlyMap<number, Point>,
    modes: Readonly<Record<string, string>>,
    parameters: Readonly<Record<string, number>>,
  ) {
    for (const [name, value] of Object.entries(parameters)) this.globals.set(name, value);
    this.blocks = text.split(/\r?\n/).map((line) => parseBlock(line, dialects[dialect]));
    this.origins = new Map([...origins].map(([system, at]) => [system, [...at]]));
    this.modes = { motion: 'G0', ...modesAtStart, ...modes };
  }

  run(): Outcome {
    for (let steps = 0; steps < 5000; steps++) {
      const block = this.blocks[this.line];
      if (block === undefined) return this.outcome('end');
      if (block.faults.length > 0) throw new Error(`${block.text}: ${block.faults[0]?.code}`);
      const here = this.line;
      const ended = this.block(block);
      if (ended !== null) return this.outcome(ended);
      if (this.line === here) this.line++;
    }
    throw new Error('endless');
  }

  private outcome(ended: Outcome['ended']): Outcome {
    const parameters = new Map([...this.globals, ...this.locals]);
    const { written, modes, feed, message, toolLengths, printed } = this;
    return { ended, message, written, parameters, modes, feed, toolLengths, printed };
  }

  private block(block: Block): Outcome['ended'] | null {
    for (const item of block.items) {
      if (item.kind === 'comment' && /^MSG,/.test(item.text)) this.message = item.text.slice(4).trim();
      if (item.kind === 'comment') this.log(item.text);
      if (item.kind === 'output') this.print(block.text);
      if (item.kind === 'flow') return this.flow(item, block);
    }
    for (const item of block.items) {
      if (item.kind !== 'setting') continue;
      const name = this.nameOf(item.target);
      if (name === '3000') return this.alarm(block);
      if (name === '3006') this.turnByHand(block.text);
      this.set(name, this.evaluate(item.value));
    }
    return this.words(block.items.filter((item): item is Word => item.kind === 'word'));
  }

  /** What the operator is asked for. */
  private turnByHand(text: string): void {
    const angle = /spindle to (\d+) deg/i.exec(text)?.[1];
    if (angle === undefined) throw new Error(`a stop that asks for nothing: ${text}`);
    this.machine.spindle = Number(angle);
  }

  private log(text: string): void {
    const logged = /^LOG,(.*)/.exec(text)?.[1];
    if (logged === undefined) return;
    this.printed.push(logged.replace(/#<(\w+)>/g, (_, name) => this.read(name).toFixed(6)));
  }

  /** `DPRNT[#1[44]*X]`: a star is a blank, a number has so many digits before and behind the point. */
  private print(text: string): void {
    const printed = /^DPRNT\[(.*)\]$/.exec(text)?.[1];
    if (printed === undefined) return;
    const valued = printed.replace(/#(\d+)\[(\d)(\d)\]/g, (_, name, before, behind) =>
      this.read(name)
        .toFixed(Number(behind))
        .padStart(Number(before) + Number(behind) + 2),
    );
    this.printed.push(valued.replace(/\*/g, ' '));
  }

  private alarm(block: Block): 'alarm' {
    this.message = /\((.*)\)/.exec(block.text)?.[1] ?? '';
    return 'alarm';
  }

  private flow(flow: Flow, block: Block): Outcome['ended'] | null {
    switch (flow.form) {
      case 'goto':
        if (flow.condition === null || this.evaluate(flow.condition) !== 0)
          this.jump((b) => b.lineNumber?.value === this.evaluate(flow.target));
        return null;
      case 'if-then':
        if (this.evaluate(flow.condition) === 0) return null;
        if (flow.statement === null || this.nameOf(flow.statement.target) !== '3000')
          throw new Error(block.text);
        return this.alarm(block);
      case 'o-word':
        this.oWord(flow);
        return null;
      default:
        throw new Error(`not followed: ${block.text}`);
    }
  }

  private oWord(flow: Flow & { form: 'o-word' }): void {
    const [argument] = flow.arguments;
    const isOther = (keyword: string, label: string | null) => (b: Block) =>
      b.items.some(
        (i) => i.kind === 'flow' && i.form === 'o-word' && i.keyword === keyword && i.label === label,
      );
    switch (flow.keyword) {
      case 'if':
        if (argument === undefined) throw new Error('if without a condition');
        if (this.evaluate(argument) === 0) this.jump(isOther('endif', flow.label));
        return;
      case 'endif':
        return;
      case 'sub':
        this.jump(isOther('endsub', flow.label));
        return;
      case 'call': {
        const values = flow.arguments.map((e) => this.evaluate(e));
        this.enter(
          values.map((value, index) => [String(index + 1), value]),
          isOther('sub', flow.label),
        );
        return;
      }
      case 'endsub':
        this.leave();
        return;
      default:
        throw new Error(`not followed: ${flow.keyword}`);
    }
  }

  private enter(values: [string, number][], isStart: (b: Block) => boolean): void {
    this.calls.push({ line: this.line + 1, locals: this.locals });
    this.locals = new Map(values);
    this.jump(isStart);
    this.line++;
  }

  private leave(): void {
    const call = this.calls.pop();
    if (call === undefined) return;
    this.line = call.line;
    this.locals = call.locals;
  }

  private jump(isTarget: (b: Block) => boolean): void {
    const found = this.blocks.findIndex(isTarget);
    if (found < 0) throw new Error(`no target for ${this.blocks[this.line]?.text}`);
    this.line = found;
  }

  private words(words: readonly Word[]): Outcome['ended'] | null {
    const codes = words
      .filter((word) => word.letter === 'G' || word.letter === 'M')
      .map((word) => `${word.letter}${Number(this.evaluate(word.value).toFixed(1))}`);
    const values = new Map(words.map((word) => [word.letter, this.evaluate(word.value)]));
    for (const code of codes) this.mode(code);
    const feed = values.get('F');
    if (feed !== undefined) this.feed = feed;
    if (codes.includes('M72') && this.saved !== null) {
      this.modes = { ...this.saved.modes };
      this.feed = this.saved.feed;
    }
    if (codes.includes('M70')) this.saved = { modes: { ...this.modes }, feed: this.feed };
    if (codes.includes('M0')) {
      this.turnByHand(this.message ?? '');
      this.message = null;
    }
    if (codes.includes('M19')) this.machine.spindle = values.get('R') ?? Number.NaN;
    if (codes.includes('M2') || codes.includes('M30')) return this.message === null ? 'end' : 'message';
    if (codes.includes('M99')) this.leave();
    const rotary = values.get('A') ?? values.get('B') ?? values.get('C');
    if (codes.includes('G65')) this.callMacro(values);
    else if (codes.includes('G10')) this.setOrigin(values);
    else if (rotary !== undefined) this.machine.table = rotary;
    else if (axes.some((letter) => values.has(letter))) return this.move(codes, values);
    return null;
  }

  private mode(code: string): void {
    const group = Object.entries(groups).find(([, members]) => members.includes(code))?.[0];
    if (group !== undefined) this.modes[group] = code;
    else if (
      ![
        'G40',
        'M2',
        'M5',
        'M9',
        'M30',
        'M70',
        'M72',
        'M99',
        'G10',
        'G31',
        'G65',
        'M0',
        'M19',
        'G43',
      ].includes(code)
    )
      throw new Error(`unknown code ${code}`);
  }

  private callMacro(values: ReadonlyMap<string, number>): void {
    const numbers: Readonly<Record<string, string>> = { A: '1', B: '2', C: '3', I: '4', J: '5', K: '6' };
    const given = [...values].flatMap(([letter, value]): [string, number][] =>
      numbers[letter] === undefined ? [] : [[numbers[letter] ?? '', value]],
    );
    const isStart = (b: Block) =>
      b.items.some(
        (i) => i.kind === 'word' && i.letter === 'O' && this.evaluate(i.value) === values.get('P'),
      );
    this.enter(given, isStart);
  }

  /** L2: the origin itself; L20: this place is to be called so. */
  private setOrigin(values: ReadonlyMap<string, number>): void {
    const p = values.get('P') ?? 0;
    const length =
      values.get('L') === 1 ? values.get('Z') : values.get('L') === 10 ? values.get('R') : undefined;
    if (length !== undefined) {
      this.toolLengths.set(p, length * this.unit());
      return;
    }
    const system = p === 0 ? this.system() : p;
    const turn = values.get('R');
    if (turn !== undefined) this.written.set(system, { ...this.written.get(system), R: turn });
    for (const [index, letter] of axes.entries()) {
      const value = values.get(letter);
      if (value === undefined) continue;
      const mm = value * this.unit();
      const origin = values.get('L') === 20 ? (this.machine.position[index] ?? 0) - mm : mm;
      const origins = this.origins.get(system) ?? [0, 0, 0];
      origins[index] = origin;
      this.origins.set(system, origins);
      this.written.set(system, { ...this.written.get(system), [letter]: origin });
    }
  }

  private move(codes: readonly string[], values: ReadonlyMap<string, number>): Outcome['ended'] | null {
    if (this.modes.distance !== 'G90') throw new Error('an incremental move');
    const to = axes.map((letter, index) => {
      const value = values.get(letter);
      const at = this.machine.position[index] ?? 0;
      return value === undefined ? at : value * this.unit() + this.origin(index);
    }) as unknown as Point;
    const isProbing = codes.includes('G31') || codes.includes('G38.3');
    if (!isProbing) {
      if (this.modes.motion !== 'G1') throw new Error(`a move in ${this.modes.motion}`);
      this.machine.plain(to);
      return null;
    }
    const before = this.machine.position;
    if (this.dialect === 'rs274ngc' && Math.hypot(...to.map((v, i) => v - (before[i] ?? 0))) < 0.254)
      throw new Error('a touch too short (NISTIR 6556, 3.5.9.1)');
    const moved = this.machine.touch(to);
    if (moved === 'signal-on' && this.dialect === 'rs274ngc') {
      this.message = 'the probe is tripped';
      return 'alarm';
    }
    const latched = moved === 'signal-on' ? before : moved.latched;
    for (const index of [0, 1, 2])
      this.globals.set(String(5061 + index), ((latched[index] ?? 0) - this.origin(index)) / this.unit());
    this.globals.set('5070', moved !== 'signal-on' && moved.tripped ? 1 : 0);
    return null;
  }

  private system(): number {
    return Number((this.modes.offset ?? 'G54').slice(1)) - 53;
  }

  private origin(index: number): number {
    return this.origins.get(this.system())?.[index] ?? 0;
  }

  private unit(): number {
    return this.modes.units === 'G20' ? 25.4 : 1;
  }

  private set(name: string, value: number): void {
    const isLocal = this.dialect === 'macro' ? Number(name) <= 33 : !/^(_|\d{2,})/.test(name);
    (isLocal ? this.locals : this.globals).set(name, value);
  }

  private read(name: string): number {
    const own = this.locals.get(name) ?? this.globals.get(name) ?? this.readSystem(name);
    if (own === undefined) throw new Error(`#${name} is not set`);
    return own;
  }

  private readSystem(name: string): number | undefined {
    const axis = /^_([xyz])$/.exec(name)?.[1];
    const number = axis === undefined ? Number(name) : 5041 + 'xyz'.indexOf(axis);
    if (number >= 5041 && number <= 5043)
      return ((this.machine.position[number - 5041] ?? 0) - this.origin(number - 5041)) / this.unit();
    if (number >= 5221 && number <= 5323)
      return (this.origins.get(Math.floor((number - 5201) / 20))?.[(number - 5201) % 20] ?? 0) / this.unit();
    if (number === 4109) return this.feed;
    if (number === 5083 || number === 5403) return lengthAtStart / this.unit();
    const kept = {
      4001: 'motion',
      4002: 'plane',
      4003: 'distance',
      4005: 'feedMode',
      4006: 'units',
      4014: 'offset',
    };
    const group = kept[number as keyof typeof kept];
    return group === undefined ? undefined : Number((this.modes[group] ?? 'G0').slice(1));
  }

  private nameOf(e: Expression & { kind: 'parameter' }): string {
    if ('name' in e.index) return e.index.name;
    return String('number' in e.index ? e.index.number : Math.round(this.evaluate(e.index.expression)));
  }

  private evaluate(e: Expression): number {
    switch (e.kind) {
      case 'number':
        return e.value;
      case 'parameter':
        return this.read(this.nameOf(e));
      case 'unary':
        return e.operator === '-' ? -this.evaluate(e.operand) : this.evaluate(e.operand);
      case 'binary':
        return operate(e.operator, this.evaluate(e.left), this.evaluate(e.right));
      case 'call':
        return called(
          e.name,
          e.arguments.map((a) => this.evaluate(a)),
        );
      case 'bad':
        throw new Error('a missing value');
    }
  }
}

function operate(operator: string, a: number, b: number): number {
  switch (operator) {
    case '+':
      return a + b;
    case '-':
      return a - b;
    case '*':
      return a * b;
    case '/':
      return a / b;
    case 'EQ':
      return Number(a === b);
    case 'NE':
      return Number(a !== b);
    case 'LT':
      return Number(a < b);
    case 'GT':
      return Number(a > b);
    case 'OR':
      return Number(a !== 0 || b !== 0);
    default:
      throw new Error(`not followed: ${operator}`);
  }
}

function called(name: string, [a = 0, b = 1]: readonly number[]): number {
  switch (name) {
    case 'ABS':
      return Math.abs(a);
    case 'SQRT':
      return Math.sqrt(a);
    case 'FIX':
      return Math.floor(a);
    case 'ATAN':
      return (Math.atan2(a, b) * 180) / Math.PI;
    default:
      throw new Error(`not followed: ${name}`);
  }
}
