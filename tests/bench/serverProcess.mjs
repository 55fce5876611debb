// A language server in a process of its own, spoken to over its standard input and output.
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { root } from '../../.scripts/run.mjs';
import { command } from './processes.mjs';

/** The two ways to start it. */
export const starts = {
  languageServer: [path.join(root, 'dist/languageServer.js'), '--stdio'],
  commandLine: [command, 'serve', '--stdio'],
};

export class ServerProcess {
  #child;
  #received = Buffer.alloc(0);
  #next = 1;
  #waiting = new Map();
  #heard = new Map();

  constructor(args = starts.languageServer) {
    this.#child = spawn(process.execPath, args, { stdio: ['pipe', 'pipe', 'inherit'] });
    this.#child.stdout.on('data', (data) => this.#take(data));
    this.#child.on('exit', (code) => {
      for (const { reject } of this.#waiting.values()) reject(new Error(`The server ended with ${code}.`));
    });
  }

  /** Sends a request and gives its result. */
  request(method, params) {
    const id = this.#next++;
    this.#send({ id, method, params });
    return new Promise((resolve, reject) => this.#waiting.set(id, { resolve, reject }));
  }

  notify(method, params) {
    this.#send({ method, params });
  }

  /** The params of the next notification of that method for which `fits` holds. */
  heard(method, fits = () => true) {
    return new Promise((resolve) => this.#heard.set(method, { fits, resolve }));
  }

  async initialize(capabilities = {}) {
    const result = await this.request('initialize', { processId: null, rootUri: null, capabilities });
    this.notify('initialized', {});
    return result;
  }

  /** Memory of the process in MiB: now, and at its peak. Linux only. */
  memory() {
    const status = readFileSync(`/proc/${this.#child.pid}/status`, 'utf8');
    const read = (name) => Number(new RegExp(`${name}:\\s*(\\d+)`).exec(status)?.[1]) / 1024;
    return { now: read('VmRSS'), peak: read('VmHWM') };
  }

  async stop() {
    await this.request('shutdown', null);
    const ended = new Promise((done) => this.#child.once('exit', done));
    this.notify('exit');
    await ended;
  }

  #send(message) {
    const body = Buffer.from(JSON.stringify({ jsonrpc: '2.0', ...message }));
    this.#child.stdin.write(`Content-Length: ${body.length}\r\n\r\n`);
    this.#child.stdin.write(body);
  }

  #take(data) {
    this.#received = this.#received.length === 0 ? data : Buffer.concat([this.#received, data]);
    for (;;) {
      const head = this.#received.indexOf('\r\n\r\n');
      if (head < 0) return;
      const length = Number(/content-length: *(\d+)/i.exec(this.#received.toString('latin1', 0, head))?.[1]);
      const end = head + 4 + length;
      if (this.#received.length < end) return;
      const message = JSON.parse(this.#received.toString('utf8', head + 4, end));
      this.#received = this.#received.subarray(end);
      this.#receive(message);
    }
  }

  #receive({ id, method, params, result, error }) {
    if (method === undefined) {
      const waiting = this.#waiting.get(id);
      this.#waiting.delete(id);
      if (error) waiting?.reject(new Error(error.message));
      else waiting?.resolve(result);
    } else if (id !== undefined) this.#send({ id, result: null });
    else {
      const waiting = this.#heard.get(method);
      if (!waiting?.fits(params)) return;
      this.#heard.delete(method);
      waiting.resolve(params);
    }
  }
}
