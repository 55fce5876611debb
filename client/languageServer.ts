import * as vscode from 'vscode';
import {
  LanguageClient,
  type LanguageClientOptions,
  type ServerOptions,
  TransportKind,
} from 'vscode-languageclient/node';
import {
  allowHereCommand,
  bringUpToDateCommand,
  explainRuleCommand,
  type InitializationOptions,
  writeRoutineCommand,
} from '../server/protocol/requests.ts';
import { answerFileRequests } from './files.ts';

export const language = 'gcode';

/** The client of a language server that runs in a process of its own; nothing is started yet. */
export function createLanguageClient(context: vscode.ExtensionContext): LanguageClient {
  const module = context.asAbsolutePath('dist/languageServer.js');
  const server: ServerOptions = {
    run: { module, transport: TransportKind.ipc },
    debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6009'] } },
  };
  const initializationOptions: InitializationOptions = {
    offersFiles: true,
    commands: [explainRuleCommand, allowHereCommand, writeRoutineCommand, bringUpToDateCommand],
    ruleLink: `command:${explainRuleCommand}?%5B%22{rule}%22%5D`,
    pictures: true,
  };
  const options: LanguageClientOptions = {
    documentSelector: watchedDocuments(),
    initializationOptions,
    outputChannelName: 'Probewright',
  };
  const client = new LanguageClient('probewright', 'Probewright', server, options);
  answerFileRequests(client);
  return client;
}

/** Not every scheme: the old side of a comparison (`git:`) would show findings that nobody can mend. */
function watchedDocuments(): NonNullable<LanguageClientOptions['documentSelector']> {
  const folders = vscode.workspace.workspaceFolders ?? [];
  const schemes = [...new Set(['file', 'untitled', ...folders.map((folder) => folder.uri.scheme)])];
  return schemes.flatMap((scheme) => [
    { scheme, language },
    { scheme, pattern: '**/probewright.json' },
    { scheme, pattern: '**/*.setup.json' },
  ]);
}
