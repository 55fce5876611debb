import { expect } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { type CalledFiles, noCalledFiles } from '../../server/analysis/calledFiles.ts';
import { type Checked, check } from '../../server/checks/check.ts';
import { ruleIds } from '../../server/checks/registry.ts';
import type { Edit, Finding } from '../../server/checks/rule.ts';
import { builtInProfile, type Profile, readProfile } from '../../server/profile/profile.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

export interface Setting {
  readonly dialect: DialectName;
  /** Text of a profile; the built-in one where there is none. */
  readonly profile?: string | undefined;
  /** What stands beside the program, by the name of the call; not given: nobody looks. */
  readonly files?: Readonly<Record<string, string>> | undefined;
}

export interface MarkedProgram {
  readonly text: string;
  /** `12 rule-id`, 1-based lines, sorted. */
  readonly expected: readonly string[];
}

/** A program in which `;! rule-id rule-id` at the end of a line names the findings that are expected there. */
export function readMarks(marked: string): MarkedProgram {
  const expected: string[] = [];
  const text = marked.replace(
    /^(.*?)[ \t]*;![ \t]*([^\r\n]*)/gm,
    (_, line: string, ids: string, at: number) => {
      const number = marked.slice(0, at).split('\n').length;
      for (const id of ids.trim().split(/\s+/)) expected.push(`${number} ${id}`);
      return line;
    },
  );
  return { text, expected: expected.sort(byLine) };
}

/** The one funnel: checks the program without its marks, and expects exactly what they say. */
export function expectMarks(marked: string, setting: Setting): Checked {
  const { text, expected } = readMarks(marked);
  const checked = checkText(text, setting);
  expect(told(checked.findings)).toEqual(expected);
  return checked;
}

export function checkText(text: string, { dialect, profile, files }: Setting): Checked {
  const source = Source.from(SourceText.from(text), dialects[dialect]);
  const resolved = profileOf(profile);
  return check(source, analyse(source, resolved, calledFiles(files, dialect)), resolved);
}

function calledFiles(files: Setting['files'], dialect: DialectName): CalledFiles {
  if (!files) return noCalledFiles;
  const names = Object.keys(files);
  const read = (name: string) => Source.from(SourceText.from(files[name] ?? ''), dialects[dialect]);
  return {
    files: names.map((name) => ({ uri: `file:///${name}`, source: read(name) })),
    lead: (_, name) =>
      names.includes(name)
        ? { file: names.indexOf(name) }
        : { reason: `no file for ${name}`, missing: `${name}.ngc` },
  };
}

export function profileOf(text: string | undefined): Profile {
  if (text === undefined) return builtInProfile;
  const { profile, problems } = readProfile(text, { path: 'probewright.json', ruleIds });
  if (profile === null) throw new Error(problems.map(({ message }) => message).join('\n'));
  return profile;
}

export function told(findings: readonly Finding[]): string[] {
  return findings.map(({ rule, place }) => `${place.line + 1} ${rule}`).sort(byLine);
}

/** The text after the edits, which must not overlap. */
export function applied(text: string, edits: readonly Edit[]): string {
  const lines = SourceText.from(text);
  const spans = edits
    .map((edit) => ({
      from: lines.lineStart(edit.line) + edit.start,
      to: lines.lineStart(edit.endLine) + edit.end,
      text: edit.text,
    }))
    .sort((a, b) => b.from - a.from || b.to - a.to);
  let result = text;
  let before = Number.POSITIVE_INFINITY;
  for (const { from, to, text: put } of spans) {
    expect(to).toBeLessThanOrEqual(before);
    before = from;
    result = result.slice(0, from) + put + result.slice(to);
  }
  return result;
}

function byLine(a: string, b: string): number {
  return Number.parseInt(a, 10) - Number.parseInt(b, 10) || (a < b ? -1 : 1);
}
