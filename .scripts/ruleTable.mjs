// Writes the table of rules and their programs into DEVELOPERS.md, from the tests; `--check` only says whether it is right.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';

const root = path.resolve(import.meta.dirname, '..');
const page = path.join(root, 'DEVELOPERS.md');
const [begin, end] = ['<!-- rules: written by .scripts/ruleTable.mjs -->', '<!-- end of rules -->'];

const before = readFileSync(page, 'utf8');
const after = withTable(before);
if (!process.argv.includes('--check')) writeFileSync(page, after);
else if (before !== after) {
  console.error(
    'The table of rules in DEVELOPERS.md is not what the tests have: run node .scripts/ruleTable.mjs',
  );
  process.exit(1);
}

function withTable(text) {
  const [from, to] = [text.indexOf(begin), text.indexOf(end)];
  if (from < 0 || to < 0) throw new Error(`DEVELOPERS.md has no ${begin} … ${end}`);
  return `${text.slice(0, from + begin.length)}\n\n${table()}\n\n${text.slice(to)}`;
}

function table() {
  const counts = countsByRule();
  const examples = examplesByRule();
  const rows = [...examples].map(([rule, { fails, passes, severity }]) => {
    const { reports, quiet } = counts.get(rule) ?? { reports: 0, quiet: 0 };
    return [`\`${rule}\``, severity, String(reports + fails), String(quiet + passes)];
  });
  const sum = (column) => String(rows.reduce((total, row) => total + Number(row[column]), 0));
  const all = [
    ['rule', 'severity', 'programs that report', 'programs that stay quiet'],
    ...rows.sort(([a], [b]) => (a < b ? -1 : 1)),
    [`${rows.length} rules`, '', sum(2), sum(3)],
  ];
  const widths = all[0].map((_, column) => Math.max(...all.map((row) => row[column].length)));
  const line = (row) =>
    `| ${row.map((cell, i) => (i < 2 ? cell.padEnd(widths[i]) : cell.padStart(widths[i]))).join(' | ')} |`;
  const rule = `|${widths.map((width, i) => (i < 2 ? '-'.repeat(width + 2) : `${'-'.repeat(width + 1)}:`)).join('|')}|`;
  return [line(all[0]), rule, ...all.slice(1).map(line)].join('\n');
}

/** The programs of `testRule('rule', [reports], [quiet])` in tests/checks. */
function countsByRule() {
  const counts = new Map();
  for (const file of filesOf('tests/checks', '.test.ts'))
    visit(file, (node) => {
      if (!ts.isCallExpression(node) || node.expression.getText(file) !== 'testRule') return;
      const [rule, reports, quiet] = node.arguments;
      const known = counts.get(rule.text) ?? { reports: 0, quiet: 0 };
      counts.set(rule.text, {
        reports: known.reports + lengthOf(reports, file),
        quiet: known.quiet + lengthOf(quiet, file),
      });
    });
  return counts;
}

/** The examples on the pages of the rules: an object with an id, `fails` and `passes`. */
function examplesByRule() {
  const examples = new Map();
  for (const file of filesOf('server/checks', '.ts'))
    visit(file, (node) => {
      if (!ts.isObjectLiteralExpression(node)) return;
      const value = (name) =>
        node.properties.find((p) => ts.isPropertyAssignment(p) && p.name.getText(file) === name)?.initializer;
      const [id, fails, passes, severity] = ['id', 'fails', 'passes', 'severity'].map(value);
      if (!id || !fails || !passes || !severity) return;
      examples.set(id.text, {
        fails: lengthOf(fails, file),
        passes: lengthOf(passes, file),
        severity: severity.text,
      });
    });
  return examples;
}

/** A list, or one that a function turns into another of the same length. */
function lengthOf(node, file) {
  if (node && ts.isCallExpression(node) && node.arguments.length === 1)
    return lengthOf(node.arguments[0], file);
  if (!node || !ts.isArrayLiteralExpression(node) || node.elements.some(ts.isSpreadElement))
    throw new Error(`${file.fileName}: programs must stand in a list, one after the other`);
  return node.elements.length;
}

function filesOf(folder, ending) {
  return readdirSync(path.join(root, folder))
    .filter((name) => name.endsWith(ending))
    .map((name) => {
      const text = readFileSync(path.join(root, folder, name), 'utf8');
      return ts.createSourceFile(path.join(folder, name), text, ts.ScriptTarget.Latest, true);
    });
}

function visit(node, look) {
  look(node);
  ts.forEachChild(node, (child) => visit(child, look));
}
