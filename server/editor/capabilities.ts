import type { ServerCapabilities } from 'vscode-languageserver';
import { explainRuleCommand } from '../protocol/requests.ts';
import { fixAllKind, quickFixKind } from './actionKinds.ts';
import type { ClientFacts } from './clientFacts.ts';
import { fileOperations, nameCapabilities } from './nameCapabilities.ts';
import { ruleScheme } from './ruleLinks.ts';
import { textCapabilities } from './textCapabilities.ts';
import { completionTriggers } from './triggers.ts';

/** `TextDocumentSyncKind.Incremental`, without the library that has the name. */
const incremental = 2;

/** What is offered to this client. */
export function capabilities(client: ClientFacts): ServerCapabilities {
  return {
    ...textCapabilities(client),
    ...nameCapabilities(),
    textDocumentSync: { openClose: true, change: incremental, save: true },
    hoverProvider: true,
    completionProvider: { triggerCharacters: completionTriggers, resolveProvider: true },
    foldingRangeProvider: true,
    ...(client.codeActionObjects
      ? { codeActionProvider: { codeActionKinds: [quickFixKind, fixAllKind] } }
      : {}),
    // A program depends on those that it calls; a profile's change is told by a refresh.
    ...(client.pullsFindings
      ? {
          diagnosticProvider: {
            identifier: 'probewright',
            interFileDependencies: true,
            workspaceDiagnostics: false,
          },
        }
      : {}),
    // A client that has the command itself would refuse a second one of that name.
    ...(client.commands.has(explainRuleCommand)
      ? {}
      : { executeCommandProvider: { commands: [explainRuleCommand] } }),
    workspace: {
      fileOperations,
      ...(client.rulePages === 'from-server' ? { textDocumentContent: { schemes: [ruleScheme] } } : {}),
    },
  };
}
