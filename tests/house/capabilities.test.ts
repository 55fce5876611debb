import ts from 'typescript';
import { expect, test } from 'vitest';
import { nodesOf, type SourceFile, sourceFiles } from './sources.ts';

/** The file of a test under `tests/server` or `tests/host/suite`, and its title. */
type Proof = readonly [file: string, title: string];

interface Capability {
  readonly name: string;
  /** Over standard input and output. */
  readonly stdio: readonly Proof[];
  /** In a real VS Code. */
  readonly host: readonly Proof[];
}

const program = [
  'session',
  'hover, symbols, folds, definition, references and completion of one program',
] as const;
const names = ['names', 'names of a program and of the file that it calls, over the wire'] as const;
const notes = ['textFeatures', 'hints and lenses, switched off by the setting, with a refresh'] as const;
const calls = ['names', 'a call leads into its file, and the file tells who calls it'] as const;
const nameInCode = [
  'names',
  'a name is found wherever it stands, read and written apart, and named before it is renamed',
] as const;
const notesInCode = [
  'textFeatures',
  'hints and lenses stand where they matter, and one setting takes them away',
] as const;

/** What a language server can offer an editor, each with what shows that ours does. */
const capabilities: readonly Capability[] = [
  {
    name: 'incremental sync',
    stdio: [
      ['session', 'a burst of edits gives the findings of the last one'],
      ['textFeatures', 'positions in %s: questions, answers, findings and edits'],
    ],
    host: [['findings', 'characters outside ASCII before a fault do not shift it, nor an edit before it']],
  },
  {
    name: 'pull diagnostics',
    stdio: [
      ['session', 'a client that asks gets findings, again after an edit, and none that are older'],
      ['session', 'an unchanged program is answered as unchanged'],
    ],
    host: [['findings', 'a rapid move from the trip position is reported at its touch']],
  },
  {
    // VS Code asks for the findings of a program: those of a profile alone are pushed to it.
    name: 'push diagnostics',
    stdio: [
      ['session', 'a client that does not ask gets findings pushed with their version, and cleared on close'],
    ],
    host: [['commands', 'a wrong key in a profile is pointed at']],
  },
  {
    name: 'related information',
    stdio: [['session', 'a client that asks gets findings, again after an edit, and none that are older']],
    host: [['findings', 'a rapid move from the trip position is reported at its touch']],
  },
  {
    name: 'code description links',
    stdio: [
      ['findings', 'the code of a finding leads to the page of its rule, which the server writes'],
      ['session', 'our own requests: rules, pages, profile, allowance'],
    ],
    host: [
      ['demo', 'a finding links to the page of its rule'],
      ['commands', 'the page of a rule opens'],
    ],
  },
  {
    name: 'tags: unused, deprecated',
    stdio: [
      ['findings', 'text that does nothing and a number that held once come tagged, asked for or pushed'],
    ],
    host: [['findings', 'a suppression that silences nothing fades, a number that held once is struck out']],
  },
  {
    name: 'quick fix',
    stdio: [['session', 'a fix from a code action mends its finding']],
    host: [['touch', 'a quick fix takes its finding away']],
  },
  {
    name: 'source.fixAll',
    stdio: [['findings', 'fix-all comes when it is asked for, and takes away what it mends in one edit']],
    host: [['findings', 'Fix All mends what changes no motion, and leaves the rest']],
  },
  {
    name: 'completion with resolve',
    stdio: [program],
    host: [
      ['touch', 'a completion is accepted'],
      ['structure', 'a completion that is looked at gets its page'],
    ],
  },
  {
    name: 'signature help',
    stdio: [['textFeatures', 'arguments, completion and hover at their places, nothing at bad ones']],
    host: [['textFeatures', 'a call shows what it takes, a keyword is matched to what is open']],
  },
  {
    name: 'hover',
    stdio: [program],
    host: [['touch', 'the hover tells its error with this probe, with a picture']],
  },
  { name: 'definition across files', stdio: [names], host: [calls] },
  { name: 'references and highlights', stdio: [names], host: [nameInCode] },
  {
    name: 'rename with prepare',
    stdio: [['names', 'renaming goes into the called file and takes it along, or says why not']],
    host: [nameInCode, ['names', 'renaming a subroutine renames its file and its calls']],
  },
  {
    name: 'document and workspace symbols',
    stdio: [program, names],
    host: [['structure', 'the outline has the routine and the touch in it'], calls],
  },
  {
    name: 'folding and selection ranges',
    stdio: [program, names],
    host: [
      ['structure', 'comments and routines fold'],
      ['structure', 'a selection grows from the name to the expression and the block'],
    ],
  },
  {
    // VS Code asks for deltas where it colours a text; what an extension can ask for is the whole and a range.
    name: 'semantic tokens: full, delta, range',
    stdio: [['textFeatures', 'tokens: full, delta and range']],
    host: [['textFeatures', 'tokens tell parameters, routines and touches apart']],
  },
  { name: 'inlay hints', stdio: [notes], host: [notesInCode] },
  { name: 'code lens', stdio: [notes], host: [notesInCode] },
  { name: 'call hierarchy', stdio: [names], host: [calls] },
  { name: 'document links', stdio: [names], host: [calls] },
  {
    name: 'formatting: whole, range, on type',
    stdio: [['textFeatures', 'formatting: whole, a range, and while typing']],
    host: [
      ['textFeatures', 'Format Document tidies a program'],
      ['textFeatures', 'formatting of a selection, and of a line whose keyword was just typed'],
    ],
  },
  {
    name: 'file-rename edits',
    stdio: [['names', 'renaming goes into the called file and takes it along, or says why not']],
    host: [['names', 'renaming a file renames the calls of open programs']],
  },
  {
    // VS Code counts in UTF-16 and takes nothing else.
    name: 'position encodings: utf-8, utf-16, utf-32',
    stdio: [['textFeatures', 'positions in %s: questions, answers, findings and edits']],
    host: [['findings', 'characters outside ASCII before a fault do not shift it, nor an edit before it']],
  },
];

test('there are the 24 of a full language server', () => {
  expect(new Set(capabilities.map(({ name }) => name)).size).toBe(24);
});

test.each([
  ['stdio', 'tests/server'],
  ['host', 'tests/host/suite'],
] as const)('each is tested by running tests: %s', (where, folder) => {
  const titles = new Set(sourceFiles(folder).flatMap(testsOf));
  const missing = capabilities.flatMap(({ name, [where]: proofs }) =>
    proofs.length === 0
      ? [`${name}: nothing`]
      : proofs
          .map(([file, title]) => `${folder}/${file}.test.ts ${title}`)
          .filter((each) => !titles.has(each))
          .map((each) => `${name}: ${each}`),
  );
  expect(missing).toEqual([]);
});

/** The tests of a file that are run, with the file before each title: `test(…)`, and `test.each(…)(…)`. */
function testsOf(file: SourceFile): string[] {
  return nodesOf(file.tree).flatMap((node) => {
    if (!ts.isCallExpression(node) || !isTest(node.expression)) return [];
    const [title] = node.arguments;
    return title && ts.isStringLiteralLike(title) ? [`${file.path} ${title.text}`] : [];
  });
}

function isTest(called: ts.Expression): boolean {
  return (
    called.getText() === 'test' ||
    (ts.isCallExpression(called) && called.expression.getText() === 'test.each')
  );
}
