// Edits of long programs in the language server over stdio: from the notification of the edit to its findings, beside
// what opening takes; and the server's memory with the longest of them open.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { writeProgram } from '../millionBlocks.mjs';
import { median } from '../processes.mjs';
import { ServerProcess } from '../serverProcess.mjs';

const keystrokes = 200;
const headers = 9;
const published = 'textDocument/publishDiagnostics';

export async function serverEdits(folder) {
  const short = await measured(folder, 10_000);
  const middle = await measured(folder, 100_000);
  const long = await measured(folder, 1_000_000);
  const ofOpen = middle.keystroke / middle.open;
  return [
    { figure: 'open to findings, 100,000 blocks', value: middle.open, unit: 'ms', most: null, goal: null },
    {
      figure: 'keystroke to findings, 10,000 blocks',
      value: short.keystroke,
      unit: 'ms',
      most: null,
      goal: null,
    },
    {
      figure: 'keystroke to findings, 100,000 blocks',
      value: middle.keystroke,
      unit: 'ms',
      most: null,
      goal: 1,
    },
    {
      figure: 'keystroke to findings over open to findings, 100,000 blocks',
      value: ofOpen,
      unit: '',
      most: 0.02,
      goal: 0.01,
    },
    {
      figure: 'keystroke to findings at 1,000,000 blocks over the same at 10,000',
      value: long.keystroke / short.keystroke,
      unit: '',
      most: 2,
      goal: 1.2,
    },
    {
      figure: 'an edit in the header that changes every state, 100,000 blocks, over open',
      value: middle.header / middle.open,
      unit: '',
      most: 1,
      goal: 0.5,
    },
    {
      figure: 'memory of the server with 1,000,000 blocks open',
      value: long.memory,
      unit: 'MiB',
      most: 400,
      goal: 250,
    },
  ];
}

async function measured(folder, blocks) {
  const file = path.join(folder, `edited-${blocks}.ngc`);
  const faultLine = writeProgram(file, { blocks, seed: 20 });
  const text = readFileSync(file, 'utf8');
  const editor = new Editor(new ServerProcess(), pathToFileURL(file).href);
  const open = await editor.open(text);
  editor.mustShow(faultLine);
  // In the middle of a long run of plain blocks: a digit more at its end, and away again.
  const line = Math.floor(blocks / 2) + 4321;
  const end = text.split('\n', line + 1)[line].length;
  const times = [];
  for (let i = 0; i < keystrokes; i++)
    times.push(await (i % 2 === 0 ? editor.edit(line, end, end, '5') : editor.edit(line, end, end + 1, '')));
  editor.mustShow(faultLine);
  const memory = editor.server.memory().now;
  const ofHeader = [];
  for (let i = 0; i < headers; i++) ofHeader.push(await editor.edit(1, 0, 3, i % 2 === 0 ? 'G20' : 'G21'));
  await editor.server.stop();
  return { open, keystroke: median(times), header: median(ofHeader), memory };
}

/** One open program, as an editor that has findings pushed to it. */
class Editor {
  #version = 1;
  #findings = [];

  constructor(server, uri) {
    this.server = server;
    this.uri = uri;
  }

  /** Milliseconds to the findings. */
  async open(text) {
    await this.server.initialize();
    const { uri } = this;
    return this.#timed('didOpen', { textDocument: { uri, languageId: 'gcode', version: 1, text } });
  }

  async edit(line, from, to, text) {
    const range = { start: { line, character: from }, end: { line, character: to } };
    const textDocument = { uri: this.uri, version: ++this.#version };
    return this.#timed('didChange', { textDocument, contentChanges: [{ range, text }] });
  }

  /** A server that stopped early would look fast: the one fault stands at the end of the program. */
  mustShow(faultLine) {
    const lines = this.#findings.map(({ range }) => range.start.line + 1);
    if (lines.length !== 1 || lines[0] !== faultLine)
      throw new Error(`The fault of line ${faultLine} was not found alone, but lines ${lines.slice(0, 9)}.`);
  }

  async #timed(method, params) {
    const start = performance.now();
    const findings = this.server.heard(published, ({ version }) => version === this.#version);
    this.server.notify(`textDocument/${method}`, params);
    this.#findings = (await findings).diagnostics;
    return performance.now() - start;
  }
}
