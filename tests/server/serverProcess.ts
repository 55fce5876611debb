import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import {
  type ClientCapabilities,
  createProtocolConnection,
  type Diagnostic,
  type InitializeResult,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import type { InitializationOptions } from '../../server/protocol/requests.ts';

const folder = mkdtempSync(join(tmpdir(), 'probewright-server-'));
let bundle: Promise<string> | null = null;

/** The server as it ships, in one file; built once for all tests of a file. */
export function builtServer(): Promise<string> {
  bundle ??= bundleServer();
  return bundle;
}

export function removeBuiltServer(): void {
  rmSync(folder, { recursive: true, force: true });
}

async function bundleServer(): Promise<string> {
  const outfile = join(folder, 'languageServer.mjs');
  await build({
    entryPoints: ['server/languageServer.ts'],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    mainFields: ['module', 'main'],
    logLevel: 'error',
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
  });
  return outfile;
}

/** A client that declares what a present-day editor does, over the server's standard input and output. */
export class TestClient {
  readonly connection: ProtocolConnection;
  readonly process: ChildProcess;
  readonly logged: string[] = [];
  readonly shown: string[] = [];
  readonly published: PublishDiagnosticsParams[] = [];
  refreshes = 0;
  #waiting: (() => void)[] = [];

  private constructor(path: string, args: readonly string[]) {
    this.process = spawn(process.execPath, [path, ...args], { stdio: ['pipe', 'pipe', 'inherit'] });
    const { stdin, stdout } = this.process;
    if (!stdin || !stdout) throw new Error('The server has no pipes.');
    this.connection = createProtocolConnection(
      new StreamMessageReader(stdout),
      new StreamMessageWriter(stdin),
    );
    this.connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
      this.logged.push(message);
    });
    this.connection.onNotification('window/showMessage', ({ message }: { message: string }) => {
      this.shown.push(message);
    });
    this.connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      this.published.push(params);
      for (const wake of this.#waiting.splice(0)) wake();
    });
    this.connection.onRequest('client/registerCapability', () => null);
    this.connection.onRequest('workspace/diagnostic/refresh', () => {
      this.refreshes++;
      for (const wake of this.#waiting.splice(0)) wake();
      return null;
    });
    this.connection.listen();
  }

  static async start(args: readonly string[] = ['--stdio']): Promise<TestClient> {
    return new TestClient(await builtServer(), args);
  }

  async initialize(
    capabilities: ClientCapabilities,
    initializationOptions?: InitializationOptions,
  ): Promise<InitializeResult> {
    const result = await this.connection.sendRequest<InitializeResult>('initialize', {
      processId: process.pid,
      rootUri: null,
      capabilities,
      initializationOptions,
    });
    await this.connection.sendNotification('initialized', {});
    return result;
  }

  open(uri: string, text: string, languageId = 'gcode'): Promise<void> {
    const textDocument = { uri, languageId, version: 1, text };
    return this.connection.sendNotification('textDocument/didOpen', { textDocument });
  }

  change(uri: string, version: number, contentChanges: readonly object[]): Promise<void> {
    return this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges,
    });
  }

  close(uri: string): Promise<void> {
    return this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  request<R>(method: string, params: object): Promise<R> {
    return this.connection.sendRequest<R>(method, params);
  }

  async pull(uri: string): Promise<readonly Diagnostic[]> {
    const report = await this.request<{ items: Diagnostic[] }>('textDocument/diagnostic', {
      textDocument: { uri },
    });
    return report.items;
  }

  /** The first push that fits, of those that came and those that will come. */
  async pushed(fits: (params: PublishDiagnosticsParams) => boolean): Promise<PublishDiagnosticsParams> {
    for (;;) {
      const found = this.published.find(fits);
      if (found) return found;
      await this.somethingCame();
    }
  }

  somethingCame(): Promise<void> {
    return new Promise((wake) => this.#waiting.push(wake));
  }

  /** Ends the session as the protocol says and gives the exit status. */
  async stop(): Promise<number | null> {
    const ended = new Promise<number | null>((settle) => this.process.once('exit', settle));
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    const status = await ended;
    this.connection.dispose();
    return status;
  }
}

/** What editors declare that the tests depend on. */
export const editorCapabilities: ClientCapabilities = {
  workspace: { didChangeWatchedFiles: { dynamicRegistration: true }, diagnostics: { refreshSupport: true } },
  textDocument: {
    hover: { contentFormat: ['markdown', 'plaintext'] },
    completion: { completionItem: { snippetSupport: true } },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    publishDiagnostics: { relatedInformation: true, codeDescriptionSupport: true },
    diagnostic: { relatedInformation: true, codeDescriptionSupport: true } as NonNullable<
      ClientCapabilities['textDocument']
    >['diagnostic'] &
      object,
  },
};
