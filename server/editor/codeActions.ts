import {
  type CodeAction,
  type CodeActionContext,
  CodeActionKind,
  type Diagnostic,
  type Range,
} from 'vscode-languageserver';
import { fixAllEdits } from '../checks/fixAll.ts';
import type { Finding } from '../checks/rule.ts';
import { allowHereCommand, explainRuleCommand } from '../protocol/requests.ts';
import type { Program } from '../workspace/program.ts';
import { fixAllKind } from './actionKinds.ts';
import { allowHereEdit } from './allowHere.ts';
import { ageActions } from './blockUpdate.ts';
import type { ClientFacts } from './clientFacts.ts';
import { meet, rangeOf, sameRange, textEditOf } from './ranges.ts';

/** A comment can't allow what is said of comments, or of the whole file. */
const notAllowable: ReadonlySet<string> = new Set([
  'outside-dialects',
  'suppression-without-reason',
  'unused-suppression',
]);

/** Fixes, explanations and allowances for what was found in the range; fix-all where it is asked for by name. */
export function codeActions(
  program: Program,
  range: Range,
  context: CodeActionContext,
  client: ClientFacts,
): CodeAction[] {
  const actions: CodeAction[] = [];
  if (isWanted(CodeActionKind.QuickFix, context.only)) {
    const here = program.findings.filter((finding) => meet(rangeOf(finding.place), range));
    actions.push(...fixActions(here, program.uri, context.diagnostics));
    actions.push(...ageActions(program, range));
    actions.push(...explanations(here, context.diagnostics));
    const allowable = here.filter(({ rule }) => !notAllowable.has(rule));
    actions.push(...allowances(allowable, program, client, context.diagnostics));
  }
  if (context.only !== undefined && isWanted(fixAllKind, context.only)) actions.push(...fixAll(program));
  return actions;
}

/** One edit that mends several findings is offered once, for all of them. */
function fixActions(findings: readonly Finding[], uri: string, known: readonly Diagnostic[]): CodeAction[] {
  const actions = new Map<string, CodeAction & { readonly diagnostics: Diagnostic[] }>();
  for (const finding of findings) {
    for (const { title, edits } of finding.fixes) {
      const key = JSON.stringify([title, edits]);
      const action = actions.get(key) ?? {
        title,
        kind: CodeActionKind.QuickFix,
        diagnostics: [],
        edit: { changes: { [uri]: edits.map(textEditOf) } },
      };
      action.diagnostics.push(...diagnosticsFor(finding, known));
      actions.set(key, action);
    }
  }
  return [...actions.values()];
}

function explanations(findings: readonly Finding[], known: readonly Diagnostic[]): CodeAction[] {
  return firstOf(findings, ({ rule }) => rule).map((finding) => ({
    title: `Explain this rule: ${finding.rule}`,
    kind: CodeActionKind.QuickFix,
    diagnostics: diagnosticsFor(finding, known),
    command: { title: 'Explain this rule', command: explainRuleCommand, arguments: [finding.rule] },
  }));
}

/** The client asks for the reason where it has the command; else the comment comes with a gap to fill in. */
function allowances(
  findings: readonly Finding[],
  program: Program,
  client: ClientFacts,
  known: readonly Diagnostic[],
): CodeAction[] {
  return firstOf(findings, ({ rule, place }) => `${place.line} ${rule}`).map((finding) => {
    const { rule, place } = finding;
    const action: CodeAction = {
      title: `Allow ${rule} here, because…`,
      kind: CodeActionKind.QuickFix,
      diagnostics: diagnosticsFor(finding, known),
    };
    if (client.commands.has(allowHereCommand)) {
      const command = {
        title: 'Allow here',
        command: allowHereCommand,
        arguments: [program.uri, place.line, rule],
      };
      return { ...action, command };
    }
    const edit = allowHereEdit(program.source, place.line, rule, 'REASON');
    return { ...action, edit: { changes: { [program.uri]: [edit] } } };
  });
}

function fixAll(program: Program): CodeAction[] {
  const edits = fixAllEdits(program.findings);
  if (edits.length === 0) return [];
  return [
    {
      title: 'Fix all that changes no motion',
      kind: fixAllKind,
      edit: { changes: { [program.uri]: edits.map(textEditOf) } },
    },
  ];
}

/** A kind is wanted when it or a kind above it is asked for: `source` asks for `source.fixAll`. */
function isWanted(kind: string, only: readonly string[] | undefined): boolean {
  return (
    only === undefined ||
    only.some((wanted) => wanted === '' || kind === wanted || kind.startsWith(`${wanted}.`))
  );
}

function diagnosticsFor(finding: Finding, known: readonly Diagnostic[]): Diagnostic[] {
  const range = rangeOf(finding.place);
  return known.filter((diagnostic) => diagnostic.code === finding.rule && sameRange(diagnostic.range, range));
}

function firstOf<T>(items: readonly T[], key: (item: T) => string): T[] {
  const seen = new Set<string>();
  return items.filter((item) => {
    const name = key(item);
    if (seen.has(name)) return false;
    seen.add(name);
    return true;
  });
}
