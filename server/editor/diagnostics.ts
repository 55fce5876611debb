import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from 'vscode-languageserver';
import type { Finding, Severity } from '../checks/rule.ts';
import { pathOf } from '../workspace/fileProfile.ts';
import type { Program } from '../workspace/program.ts';
import type { ClientFacts } from './clientFacts.ts';
import { rangeOf } from './ranges.ts';

/** Most diagnostics that one file gets; the last one says how many more there are. */
export const mostDiagnostics = 1000;

export const diagnosticSource = 'probewright';

/** What is to be said about a program: of its profile and its size first, then what was found, in the order of the text. */
export function programDiagnostics(program: Program, client: ClientFacts): Diagnostic[] {
  if (program.notChecked !== null) return [note(program.notChecked, DiagnosticSeverity.Information)];
  const first = profileNote(program, client);
  const room = mostDiagnostics - first.length;
  return [
    ...first,
    ...worstFirst(program.findings, room, (finding) => diagnosticOf(finding, program.uri, client)),
  ];
}

export function diagnosticOf(finding: Finding, uri: string, client: ClientFacts): Diagnostic {
  const diagnostic: Diagnostic = {
    range: rangeOf(finding.place),
    severity: severities[finding.severity],
    code: finding.rule,
    source: diagnosticSource,
    message: finding.message,
  };
  if (client.codeDescription && client.ruleLink !== null) {
    diagnostic.codeDescription = { href: client.ruleLink.replaceAll('{rule}', finding.rule) };
  }
  const tag = tags.get(finding.rule);
  if (tag !== undefined && client.diagnosticTags.has(tag)) diagnostic.tags = [tag];
  if (client.relatedInformation && finding.related.length > 0) {
    diagnostic.relatedInformation = finding.related.map(({ message, place }) => ({
      message,
      location: { uri, range: rangeOf(place) },
    }));
  }
  return diagnostic;
}

/** Findings come in the order of the text, and go so. */
function worstFirst(
  findings: readonly Finding[],
  room: number,
  present: (finding: Finding) => Diagnostic,
): Diagnostic[] {
  if (findings.length <= room) return findings.map(present);
  const shown = worst(findings, room - 1);
  const more = findings.length - shown.length;
  const last = note(
    `${more.toLocaleString('en')} more findings are not shown, none of them worse than those that are. The command line lists all: probewright check.`,
    DiagnosticSeverity.Information,
  );
  return [...shown.map(present), last];
}

/** The worst, the first ones of them where not all have room; in the order of the text. */
function worst(findings: readonly Finding[], most: number): Finding[] {
  const rooms = new Map<Severity, number>();
  let room = most;
  for (const severity of bySeverity) {
    const count = findings.filter((finding) => finding.severity === severity).length;
    rooms.set(severity, Math.min(count, room));
    room -= Math.min(count, room);
  }
  return findings.filter(({ severity }) => {
    const left = rooms.get(severity) ?? 0;
    rooms.set(severity, left - 1);
    return left > 0;
  });
}

/** A program whose profile can't be used says so, so that nobody takes built-in values for those of their probe. */
function profileNote({ profile }: Program, client: ClientFacts): Diagnostic[] {
  const [problem] = profile.problems;
  if (!problem) return [];
  const file = profile.uri === null ? 'The probe profile' : `The probe profile ${pathOf(profile.uri)}`;
  const others = profile.problems.length - 1;
  const more = others > 0 ? ` (and ${others} more)` : '';
  const diagnostic = note(
    `${file} can't be used: ${withoutStop(problem.message)}${more}. Until it is mended, built-in values stand for your probe and machine.`,
    DiagnosticSeverity.Warning,
  );
  if (client.relatedInformation && profile.uri !== null) {
    const { uri } = profile;
    diagnostic.relatedInformation = profile.problems.slice(0, 20).map((each) => ({
      message: each.message,
      location: {
        uri,
        range: {
          start: { line: each.line, character: each.start },
          end: { line: each.endLine, character: each.end },
        },
      },
    }));
  }
  return [diagnostic];
}

function withoutStop(message: string): string {
  return message.replace(/\.$/, '');
}

function note(message: string, severity: DiagnosticSeverity): Diagnostic {
  const start = { line: 0, character: 0 };
  return { range: { start, end: start }, severity, source: diagnosticSource, message };
}

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

const bySeverity: readonly Severity[] = ['error', 'warning', 'info'];

/** Editors fade text that does nothing, and strike out what held once and no longer does. */
const tags: ReadonlyMap<string, DiagnosticTag> = new Map([
  ['unreachable-block', DiagnosticTag.Unnecessary],
  ['unused-parameter', DiagnosticTag.Unnecessary],
  ['unused-suppression', DiagnosticTag.Unnecessary],
  ['effective-diameter-outdated', DiagnosticTag.Deprecated],
]);
