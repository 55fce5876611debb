import type { Connection, Position } from 'vscode-languageserver';
import type { SourceText } from '../syntax/sourceText.ts';
import { columnIn, type Encoding, offsetOf } from './positionEncoding.ts';

/** Texts as positions refer to them: what is open by its newest version, other files as they stand. */
export interface Texts {
  open(uri: string): SourceText | null;
  read(uri: string): Promise<SourceText | null>;
}

/**
 * The connection as handlers see it: whatever the client counts in, what they are given and what they answer counts in
 * UTF-16. Only semantic tokens, which are bare numbers, see to themselves. With UTF-16 it is the connection itself.
 */
export function countingInUtf16(connection: Connection, encoding: Encoding, texts: Texts): Connection {
  return encoding === 'utf-16' ? connection : translated(connection, new Translation(encoding, texts));
}

type Handler = (params: unknown, ...rest: unknown[]) => unknown;

/** Everything called `on…` takes a handler last; `sendDiagnostics` is the one notice that carries positions. */
function translated<T extends object>(target: T, translation: Translation): T {
  return new Proxy(target, {
    get(object, key) {
      const value: unknown = Reflect.get(object, key);
      if (typeof value !== 'function')
        return typeof value === 'object' && value !== null ? translated(value, translation) : value;
      const method = value.bind(object) as (...given: unknown[]) => unknown;
      if (key === 'sendDiagnostics') return (params: unknown) => method(translation.notice(params));
      if (!/^on/.test(String(key))) return method;
      return (...given: unknown[]) =>
        method(
          ...given.map((each) =>
            typeof each === 'function' ? translation.handler(each as Handler, String(key)) : each,
          ),
        );
    },
  });
}

type Convert = (position: Position, uri: string) => Position;

class Translation {
  readonly #encoding: Encoding;
  readonly #texts: Texts;

  constructor(encoding: Encoding, texts: Texts) {
    this.#encoding = encoding;
    this.#texts = texts;
  }

  handler(handle: Handler, name: string): Handler {
    if (name === 'onDidChangeTextDocument')
      return (params, ...rest) => handle(this.#edits(params as Edits), ...rest);
    return (params, ...rest) => {
      const uri = uriOf(params);
      // A position in an answer is one of the text that the question was about.
      const asked = uri === null ? null : this.#texts.open(uri);
      const known = new Map(uri !== null && asked ? [[uri, asked]] : []);
      const answer = handle(mapped(params, uri, this.#inward(known)), ...rest);
      if (!(answer instanceof Promise)) return answer;
      return answer.then((result: unknown) => this.#answer(result, uri, known));
    };
  }

  notice(params: unknown): unknown {
    return mapped(params, uriOf(params), this.#outward(new Map()));
  }

  async #answer(result: unknown, uri: string | null, known: Map<string, SourceText>): Promise<unknown> {
    const others = new Set<string>();
    mapped(result, uri, (position, where) => {
      if (!known.has(where) && this.#texts.open(where) === null) others.add(where);
      return position;
    });
    for (const other of others) {
      const text = await this.#texts.read(other);
      if (text) known.set(other, text);
    }
    return mapped(result, uri, this.#outward(known));
  }

  /** Each change of a row is one of the text that the change before it left. */
  #edits(params: Edits): Edits {
    const uri = params.textDocument?.uri ?? '';
    let text = this.#texts.open(uri);
    const contentChanges = params.contentChanges?.map((change) => {
      if (!change.range || !text) return change;
      const known = new Map([[uri, text]]);
      const moved = mapped(change, uri, this.#inward(known)) as typeof change;
      const { start, end } = moved.range as { start: Position; end: Position };
      text = text.edit({
        line: start.line,
        start: start.character,
        endLine: end.line,
        end: end.character,
        text: change.text,
      });
      return moved;
    });
    return contentChanges ? { ...params, contentChanges } : params;
  }

  #inward(known: ReadonlyMap<string, SourceText>): Convert {
    return (position, uri) => this.#moved(position, uri, known, offsetOf);
  }

  #outward(known: ReadonlyMap<string, SourceText>): Convert {
    return (position, uri) => this.#moved(position, uri, known, columnIn);
  }

  #moved(
    position: Position,
    uri: string,
    known: ReadonlyMap<string, SourceText>,
    convert: typeof columnIn,
  ): Position {
    const text = known.get(uri) ?? this.#texts.open(uri);
    if (!text || position.line < 0 || position.line >= text.lineCount) return position;
    const line = text.line(position.line);
    return { line: position.line, character: convert(line, position.character, this.#encoding) };
  }
}

interface Edits {
  readonly textDocument?: { readonly uri: string };
  readonly contentChanges?: readonly {
    readonly range?: { readonly start: Position; readonly end: Position };
    readonly text: string;
  }[];
}

/** The document that a message is about. */
function uriOf(params: unknown): string | null {
  if (typeof params !== 'object' || params === null) return null;
  const { uri, textDocument, item } = params as Readonly<Record<string, unknown>>;
  if (typeof uri === 'string') return uri;
  return uriOf(textDocument) ?? uriOf(item);
}

/** A copy of a message with every position converted, each as one of the document that the message names for it. */
function mapped(value: unknown, uri: string | null, convert: Convert): unknown {
  if (Array.isArray(value)) return value.map((each) => mapped(each, uri, convert));
  if (typeof value !== 'object' || value === null) return value;
  if (isPosition(value)) return uri === null ? value : convert(value, uri);
  const named = value as Readonly<Record<string, unknown>>;
  const own = uriOf(named) ?? uri;
  return Object.fromEntries(
    Object.entries(named).map(([key, each]) => [key, mappedEntry(key, each, named, own, uri, convert)]),
  );
}

function mappedEntry(
  key: string,
  value: unknown,
  holder: Readonly<Record<string, unknown>>,
  own: string | null,
  outer: string | null,
  convert: Convert,
): unknown {
  // What an item carries for us comes back as it went.
  if (key === 'data') return value;
  if (key === 'changes' && typeof value === 'object' && value !== null && !Array.isArray(value)) {
    return Object.fromEntries(
      Object.entries(value).map(([uri, edits]) => [uri, mapped(edits, uri, convert)]),
    );
  }
  // A link's target and the place where a call is made may lie in another document than the one asked about.
  if (typeof holder.targetUri === 'string' && key.startsWith('target'))
    return mapped(value, holder.targetUri, convert);
  if (key === 'fromRanges') return mapped(value, uriOf(holder.from) ?? outer, convert);
  return mapped(value, own, convert);
}

function isPosition(value: object): value is Position {
  const { line, character } = value as Readonly<Record<string, unknown>>;
  return typeof line === 'number' && typeof character === 'number' && Object.keys(value).length === 2;
}
