import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Analyst, analyse } from '../../server/analysis/analysis.ts';
import { datumError } from '../../server/analysis/error.ts';
import { Checker, check } from '../../server/checks/check.ts';
import { clientFacts } from '../../server/editor/clientFacts.ts';
import { programDiagnostics } from '../../server/editor/diagnostics.ts';
import { documentSymbols } from '../../server/editor/documentSymbols.ts';
import { SemanticTokensOf } from '../../server/editor/semanticTokens.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { type FileProfile, noProfileFile } from '../../server/workspace/fileProfile.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';
import type { Program } from '../../server/workspace/program.ts';
import { changeOf, padded, type Step, samples, steps } from './editedPrograms.ts';

const client = clientFacts({
  capabilities: { textDocument: { publishDiagnostics: { relatedInformation: true } } },
});
const profiles: Readonly<Record<DialectName, FileProfile>> = {
  rs274ngc: { ...noProfileFile, profile: { ...builtInProfile, dialect: 'rs274ngc' } },
  macro: { ...noProfileFile, profile: { ...builtInProfile, dialect: 'macro' } },
};

const tokensAnew = () => new SemanticTokensOf({ amount: 'everything', encoding: 'utf-16' });

/** All that an edit may change and a person may see. */
function shown(program: Program, tokens = tokensAnew()): unknown {
  const { analysis, source } = program;
  const everyFew = Math.max(1, Math.floor(source.lineCount / 12));
  const states = Array.from({ length: 12 }, (_, i) => {
    const state = analysis.stateAt(i * everyFew);
    return (
      state && { ...state, parameter: ['#100', '#1', '#<a>', '#5061'].map((name) => state.parameter(name)) }
    );
  });
  return {
    findings: program.findings,
    diagnostics: programDiagnostics(program, client),
    symbols: documentSymbols(program),
    tokens: tokens.full(program).data,
    touches: analysis.touches,
    departures: analysis.departures,
    unguardedMoves: analysis.unguardedMoves,
    failedUses: analysis.failedUses,
    alarmExits: analysis.alarmExits,
    untested: analysis.untestedUses,
    datums: analysis.datums.map((datum) => ({ datum, error: datumError(datum, builtInProfile) })),
    stored: analysis.storedResults,
    faults: analysis.flowFaults,
    notKnown: analysis.notKnown,
    states,
  };
}

function fresh(document: OpenDocument): OpenDocument {
  return OpenDocument.open(document.uri, 'gcode', document.version, document.text.toString());
}

/** Edits one after the other; now and then, as an undo does, back to the text before. */
function edited(document: OpenDocument, all: readonly Step[], look: (version: OpenDocument) => void): void {
  let current = document;
  for (const [i, step] of all.entries()) {
    const before = current;
    current = current.changed(current.version + 1, [changeOf(step, current.text.lineCount)]);
    look(current);
    if (i % 3 !== 2) continue;
    look(before);
    current = current.changed(current.version + 1, [{ text: before.text.toString() }]);
  }
}

const fraction = fc.double({ min: 0, max: 1, noNaN: true });

describe.each(['rs274ngc', 'macro'] as const)('programs of %s', (dialect) => {
  const profile = profiles[dialect];
  const texts = samples.filter(({ name }) => name.endsWith(dialect === 'macro' ? '.nc' : '.ngc'));
  const program = fc
    .tuple(fc.constantFrom(...texts), fc.array(fraction, { minLength: 2, maxLength: 4 }), fc.boolean())
    .map(([{ text }, at, incremental]) => padded(text, at, incremental));

  test('show after any edits what a fresh start shows', { timeout: 240_000 }, () => {
    fc.assert(
      fc.property(program, fc.array(steps(dialect), { minLength: 2, maxLength: 5 }), (text, all) => {
        const document = OpenDocument.open('file:///part.ngc', 'gcode', 1, text);
        const tokens = tokensAnew();
        shown(document.program(profile), tokens);
        edited(document, all, (version) => {
          expect(shown(version.program(profile), tokens)).toEqual(shown(fresh(version).program(profile)));
        });
      }),
      { numRuns: Number(process.env.EDIT_RUNS ?? 20) },
    );
  });

  test('show it where lines change places within one edit', { timeout: 240_000 }, () => {
    fc.assert(
      fc.property(program, fraction, fraction, fc.integer({ min: 1, max: 3 }), (text, one, other, by) => {
        const document = OpenDocument.open('file:///part.ngc', 'gcode', 1, text);
        const tokens = tokensAnew();
        shown(document.program(profile), tokens);
        const all = text.split('\n');
        const [from = 0, to = 0] = [one, other]
          .map((each) => Math.floor(each * (all.length - 1)))
          .sort(inOrder);
        const [first, behind] = [all.slice(from, from + by), all.slice(from + by, Math.max(to, from + by))];
        const start = { line: from, character: 0 };
        const end = { line: from + first.length + behind.length, character: 0 };
        const turned = [...behind, ...first].map((line) => `${line}\n`).join('');
        let version = document.changed(2, [{ range: { start, end }, text: turned }]);
        expect(shown(version.program(profile), tokens)).toEqual(shown(fresh(version).program(profile)));
        const back = [...first, ...behind].map((line) => `${line}\n`).join('');
        version = version.changed(3, [{ range: { start, end }, text: back }]);
        expect(shown(version.program(profile), tokens)).toEqual(shown(fresh(version).program(profile)));
      }),
      { numRuns: Number(process.env.EDIT_RUNS ?? 20) },
    );
  });
});

function inOrder(a: number, b: number): number {
  return a - b;
}

/** A run of 100,000 plain blocks with touches before and behind it. */
function straight(distance: 'G90' | 'G91'): string {
  const run = Array.from(
    { length: 100_000 },
    (_, i) => `G1 X${i % 100} Y${(i % 7) / 8}${i % 10 ? '' : ' F400'}`,
  );
  const touch = (n: number) => `G90\nG0 Z50\nG38.2 Z-10 F50\n#${n}=#5063\nG0 X9`;
  return ['G21 G94', touch(101), distance, ...run, touch(102), 'G0 Z50', 'M2'].join('\n');
}

describe.each(['G90', 'G91'] as const)('a run of 100,000 blocks in %s', (distance) => {
  const { profile } = profiles.rs274ngc;
  const analyst = new Analyst(profile);
  const checker = new Checker(profile);
  let source = Source.from(SourceText.from(straight(distance)), dialects.rs274ngc);
  const findings = (of: Source) => toEnd(checker.check(of, analyst.analyse(of))).findings;
  findings(source);

  test.each([
    ['a character', { start: 0, end: 0, text: ' ' }],
    ['a value', { start: 0, end: 200, text: 'G1 X3.5 F90' }],
    ['a block more', { start: 0, end: 0, text: 'X1\n' }],
    ['a comment', { start: 0, end: 0, text: '(here)\n' }],
    ['a fault', { start: 0, end: 0, text: 'G1 G2 X1\n' }],
  ])('is looked at around the edit alone: %s', (_, { start, end, text }) => {
    for (const line of [20, 777, 50_000, 99_900]) {
      const before = {
        ran: analyst.blocksRun,
        passed: analyst.chunksPassed,
        looked: checker.blocks.blocksLookedAt,
      };
      const old = new Set(source.text.chunks);
      source = source.edit({ line, start, endLine: line, end, text });
      const scanned = source.text.chunks.filter((chunk) => !old.has(chunk));
      const found = findings(source);
      const lines = scanned.reduce((sum, { lineCount }) => sum + lineCount, 0);
      const ran = analyst.blocksRun - before.ran;
      const looked = checker.blocks.blocksLookedAt - before.looked;
      expect(lines + ran + looked).toBeLessThanOrEqual(1000);
      // One leap of chunks anew, the others as a whole; in G91 an edit can move all that follows.
      if (distance === 'G90') expect(analyst.chunksPassed - before.passed).toBeLessThanOrEqual(100);
      expect(lines).toBeGreaterThan(0);
      expect(ran).toBeGreaterThan(0);
      if (line !== 777) continue;
      const again = Source.from(SourceText.from(source.text.toString()), dialects.rs274ngc);
      const fresh = analyse(again, profile);
      expect(found).toEqual(check(again, fresh, profile).findings);
      const here = analyst.analyse(source);
      for (const at of [line + 1, 40_000, 99_999])
        expect(here.stateAt(at)?.position).toEqual(fresh.stateAt(at)?.position);
    }
  });

  test('is looked at whole by who remembers nothing: the count tells', () => {
    const again = Source.from(SourceText.from(source.text.toString()), dialects.rs274ngc);
    const known = new Set(source.text.chunks);
    const scanned = again.text.chunks.filter((chunk) => !known.has(chunk));
    const forgetful = new Analyst(profile);
    toEnd(new Checker(profile).check(again, forgetful.analyse(again)));
    const lines = scanned.reduce((sum, { lineCount }) => sum + lineCount, 0);
    expect(lines + forgetful.blocksRun).toBeGreaterThan(100_000);
  });
});

function toEnd<T>(work: Generator<void, T>): T {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}
