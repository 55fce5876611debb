import type { Finding, Fix, Rule, Severity } from '../checks/rule.ts';
import type { Place } from '../syntax/place.ts';
import type { CheckedProgram, CheckHeader, CheckReport } from './checkReport.ts';
import { rangeOf, rangeOfEdit } from './range.ts';

const levels: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'note' };

/** SARIF 2.1.0 (OASIS Standard, 27 March 2020): one run; its driver holds the page of every rule. */
export function checkSarif(header: CheckHeader, rules: readonly Rule[]): CheckReport {
  const indexOf = new Map(rules.map((rule, index) => [rule.id, index]));
  let first = true;
  return {
    *begin() {
      yield '{"$schema":"https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json",';
      yield `"version":"2.1.0","runs":[{"tool":${JSON.stringify(tool(header.version, rules))},`;
      yield '"columnKind":"utf16CodeUnits","results":[';
    },
    *program(program: CheckedProgram) {
      for (const finding of program.findings) {
        yield `${first ? '\n' : ',\n'}${JSON.stringify(result(program.path, finding, indexOf))}`;
        first = false;
      }
    },
    *end() {
      yield '\n],"invocations":[{"executionSuccessful":true}]}]}\n';
    },
  };
}

function tool(version: string, rules: readonly Rule[]): object {
  return {
    driver: {
      name: 'probewright',
      semanticVersion: version,
      rules: rules.map((rule) => ({
        id: rule.id,
        shortDescription: { text: rule.title },
        fullDescription: { text: rule.what },
        help: {
          text: `${rule.what}\n\n${rule.why}\n\n${rule.instead}`,
          markdown: `${rule.what}\n\n${rule.why}\n\n${rule.instead}`,
        },
        defaultConfiguration: { level: levels[rule.severity] },
      })),
    },
  };
}

function result(path: string, finding: Finding, indexOf: ReadonlyMap<string, number>): object {
  const index = indexOf.get(finding.rule);
  return {
    ruleId: finding.rule,
    ...(index === undefined ? {} : { ruleIndex: index }),
    level: levels[finding.severity],
    message: { text: finding.message },
    locations: [location(path, finding.place)],
    ...(finding.related.length === 0
      ? {}
      : {
          relatedLocations: finding.related.map(({ message, place }, id) => ({
            id,
            ...location(path, place),
            message: { text: message },
          })),
        }),
    ...(finding.fixes.length === 0 ? {} : { fixes: finding.fixes.map((fix) => fixed(path, fix)) }),
  };
}

function location(path: string, place: Place): object {
  const { start, end } = rangeOf(place);
  return {
    physicalLocation: {
      artifactLocation: artifact(path),
      region: {
        startLine: start.line,
        startColumn: start.column,
        endLine: end.line,
        endColumn: end.column,
      },
    },
  };
}

function fixed(path: string, fix: Fix): object {
  return {
    description: { text: fix.title },
    artifactChanges: [
      {
        artifactLocation: artifact(path),
        replacements: fix.edits.map((edit) => {
          const { start, end } = rangeOfEdit(edit);
          return {
            deletedRegion: {
              startLine: start.line,
              startColumn: start.column,
              endLine: end.line,
              endColumn: end.column,
            },
            insertedContent: { text: edit.text },
          };
        }),
      },
    ],
  };
}

/** A URI reference relative to where the check ran (SARIF 2.1.0, 3.4.3 and 3.10). */
function artifact(path: string): { uri: string } {
  if (path === '-') return { uri: 'stdin' };
  const segments = path.split('/').map(encodeURIComponent).join('/');
  if (/^[A-Za-z]:\//.test(path))
    return { uri: `file:///${path.slice(0, 2)}${segments.slice(segments.indexOf('/'))}` };
  return { uri: path.startsWith('/') ? `file://${segments}` : segments };
}
