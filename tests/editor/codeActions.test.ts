import { expect, test } from 'vitest';
import type { CodeAction } from 'vscode-languageserver';
import { fixAllEdits } from '../../server/checks/fixAll.ts';
import type { Finding } from '../../server/checks/rule.ts';
import { fixAllKind } from '../../server/editor/actionKinds.ts';
import { codeActions } from '../../server/editor/codeActions.ts';
import { programDiagnostics } from '../../server/editor/diagnostics.ts';
import { capable, clientOf, edited, openProgram, uri } from './openProgram.ts';

const noFeed = 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.2 Z-10\nG0 Z5\nM2\n';

function actionsFor(text: string, client = capable, only?: string[]): CodeAction[] {
  const { program } = openProgram(text);
  const diagnostics = programDiagnostics(program, client);
  const all = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
  return codeActions(program, all, { diagnostics, ...(only ? { only } : {}) }, client);
}

test('a finding offers its fixes, its page and an allowance', () => {
  const actions = actionsFor(noFeed);
  const titles = actions.map(({ title }) => title);
  expect(titles).toContain('Explain this rule: probe-feed-unset');
  expect(titles).toContain('Allow probe-feed-unset here, because…');
  const fixes = actions.filter(({ edit }) => edit);
  expect(fixes.length).toBeGreaterThan(0);
  for (const action of actions)
    expect(action.diagnostics?.map(({ code }) => code)).toEqual(['probe-feed-unset']);
});

test('the page and the allowance are commands of the client, with what it needs to ask', () => {
  const commands = actionsFor(noFeed).flatMap(({ command }) => command ?? []);
  expect(commands.map(({ command, arguments: given }) => [command, given])).toEqual([
    ['probewright.explainRule', ['probe-feed-unset']],
    ['probewright.allowHere', [uri, 2, 'probe-feed-unset']],
  ]);
});

test('every fix, applied, takes its finding away', () => {
  for (const { edit, diagnostics } of actionsFor(noFeed)) {
    if (!edit) continue;
    const { program } = openProgram(edited(noFeed, edit.changes?.[uri] ?? []));
    expect(program.findings.map(({ rule }) => rule)).not.toContain(diagnostics?.[0]?.code);
  }
});

test('a client without our command gets the allowance as an edit with a gap for the reason', () => {
  const allow = actionsFor(noFeed, clientOf({})).find(({ title }) => title.startsWith('Allow'));
  const text = edited(noFeed, allow?.edit?.changes?.[uri] ?? []);
  expect(text.split('\n')[2]).toBe('(probewright: allow probe-feed-unset - REASON)');
  const { program } = openProgram(text);
  expect(program.findings).toEqual([]);
});

test('one edit that mends two findings is offered once, for both', () => {
  const fast = 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.2 Z-10 F3000\n#1 = #5063\nG0 Z5\nG10 L2 P1 Z#1\nM2\n';
  const profile = {
    probe: { overtravel: { axial: 3 }, calibration: { feed: 60 } },
    machine: { deceleration: 50 },
  };
  const { program } = openProgram(fast, profile);
  const diagnostics = programDiagnostics(program, capable);
  expect(diagnostics.map(({ code }) => code).sort()).toEqual(['overtravel-exceeded', 'single-fast-touch']);
  const range = diagnostics[0]?.range ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  const fixes = codeActions(program, range, { diagnostics }, capable).filter(({ edit }) => edit);
  expect(new Set(fixes.map(({ edit }) => JSON.stringify(edit))).size).toBe(fixes.length);
  expect(fixes.some((fix) => fix.diagnostics?.length === 2)).toBe(true);
});

test('nothing is offered away from a finding', () => {
  const { program } = openProgram(noFeed);
  const here = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  expect(codeActions(program, here, { diagnostics: [] }, capable)).toEqual([]);
});

test('fix-all comes when it is asked for, leaves motion as it is, and settles', () => {
  const text =
    'G21 G90 G94\nG0 X0 (probewright: allow syntax - no longer so)\n(probewright: allow syntax - nor this)\nG38.2 Z-10\nG0 Z5\nM2\n';
  expect(actionsFor(text, capable, ['quickfix']).map(({ kind }) => kind)).not.toContain(fixAllKind);
  const [fixAll, ...others] = actionsFor(text, capable, ['source.fixAll']);
  expect(others).toEqual([]);
  const after = edited(text, fixAll?.edit?.changes?.[uri] ?? []);
  expect(after).not.toContain('probewright: allow');
  expect(after).toContain('G38.2 Z-10');
  expect(actionsFor(after, capable, ['source.fixAll.probewright'])).toEqual([]);
});

test('two fixes of one place are not both applied, and half of one never is', () => {
  const edit = (line: number, start: number, end: number, text: string) => ({
    line,
    start,
    endLine: line,
    end,
    text,
  });
  const finding = (...edits: ReturnType<typeof edit>[]): Finding => ({
    rule: 'syntax',
    severity: 'error',
    message: '',
    place: { line: 0, start: 0, end: 1 },
    related: [],
    fixes: [{ title: '', edits, changesMotion: false }],
  });
  const first = edit(0, 0, 3, 'a');
  const overlapping = [edit(0, 2, 5, 'b'), edit(1, 0, 0, 'c')];
  const touching = edit(0, 3, 4, 'd');
  expect(fixAllEdits([finding(first), finding(...overlapping), finding(touching)])).toEqual([
    first,
    touching,
  ]);
  const insertion = edit(2, 0, 0, 'x');
  expect(fixAllEdits([finding(insertion), finding(insertion)])).toEqual([insertion]);
});

test('what is said of a suppression can not be allowed by another', () => {
  const titles = actionsFor('G21 G90\n(probewright: allow syntax - a title)\nM2\n').map(({ title }) => title);
  expect(titles).toContain('Explain this rule: unused-suppression');
  expect(titles.filter((title) => title.startsWith('Allow'))).toEqual([]);
});
