import assert from 'node:assert/strict';
import { suite, suiteSetup, teardown, test } from 'mocha';
import * as vscode from 'vscode';
import macro from '../../../snippets/macro.json';
import rs274ngc from '../../../snippets/rs274ngc.json';
import { activateExtension, closeEditors, findings, openUntitled, ruleOf } from './demoWorkspace.ts';

interface Snippet {
  readonly prefix: string;
  readonly body: readonly string[];
}

suite('snippets', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  for (const [dialect, snippets] of Object.entries({ rs274ngc, macro })) {
    for (const [name, snippet] of Object.entries<Snippet>(snippets)) {
      test(`${name}: nothing to report, whatever the direction`, async () => {
        for (const body of bothWays(snippet.body)) {
          const { text, found } = await putIn(body, dialect);
          assert.deepEqual(found, [], text);
        }
      });
    }
  }
});

/** The snippet, and where it has a direction also with the other one. */
function bothWays(body: readonly string[]): string[] {
  const text = body.join('\n');
  const turned = text.replace(/\|(-1\.?),(1\.?)\|/, '|$2,$1|');
  return turned === text ? [text] : [text, turned];
}

/** Puts a snippet into a program with every default taken; gives the program and what is found in it. */
async function putIn(body: string, dialect: string): Promise<{ text: string; found: string[] }> {
  const before = [`(probewright: dialect ${dialect})`, 'G21 G90 G94 G40', 'M5', 'G0 Z50', ''].join('\n');
  const editor = await openUntitled(`${before}\nG90 G91\nM30\n`);
  const { document } = editor;
  await editor.insertSnippet(new vscode.SnippetString(body), new vscode.Position(4, 0));
  const text = document.getText();
  const mark = text.split('\n').indexOf('G90 G91');
  const found = await findings(document, (all) => all.some((d) => d.range.start.line === mark));
  return {
    text,
    found: found
      .filter((d) => d.range.start.line !== mark)
      .map((d) => `${d.range.start.line + 1} ${ruleOf(d)}`),
  };
}
