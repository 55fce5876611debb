import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

export const root = fileURLToPath(new URL('../..', import.meta.url));

export interface SourceFile {
  /** From the root, with forward slashes: `server/probe/tripModel.ts`. */
  readonly path: string;
  readonly tree: ts.SourceFile;
  /** What it imports: a path from the root for a file of ours, else the name of the package. */
  readonly imports: readonly string[];
}

/** Every TypeScript file under the folders, parsed. */
export function sourceFiles(...folders: readonly string[]): SourceFile[] {
  return folders
    .flatMap((folder) =>
      readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' }).map((name) =>
        path.join(folder, name),
      ),
    )
    .filter((name) => name.endsWith('.ts'))
    .map((name) => name.split(path.sep).join('/'))
    .sort()
    .map(parsed);
}

const alreadyParsed = new Map<string, SourceFile>();

function parsed(file: string): SourceFile {
  const known = alreadyParsed.get(file) ?? parse(file);
  alreadyParsed.set(file, known);
  return known;
}

function parse(file: string): SourceFile {
  const text = readFileSync(path.join(root, file), 'utf8');
  const imports = ts
    .preProcessFile(text, true, true)
    .importedFiles.map(({ fileName }) => resolve(file, fileName));
  return { path: file, tree: ts.createSourceFile(file, text, ts.ScriptTarget.ES2023, true), imports };
}

function resolve(from: string, specifier: string): string {
  return specifier.startsWith('.') ? path.posix.join(path.posix.dirname(from), specifier) : specifier;
}

/** Every node of a file, in the order of the text. */
export function nodesOf(node: ts.Node): ts.Node[] {
  const nodes = [node];
  ts.forEachChild(node, (child) => {
    for (const each of nodesOf(child)) nodes.push(each);
  });
  return nodes;
}

export function lineOf(file: SourceFile, node: ts.Node): number {
  return file.tree.getLineAndCharacterOfPosition(node.getStart()).line + 1;
}
