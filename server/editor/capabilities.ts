import { CodeActionKind, type ServerCapabilities, TextDocumentSyncKind } from 'vscode-languageserver';
import { explainRuleCommand } from '../protocol/requests.ts';
import { fixAllKind } from './actionKinds.ts';
import type { ClientFacts } from './clientFacts.ts';
import { fileOperations, nameCapabilities } from './nameCapabilities.ts';
import { ruleScheme } from './ruleLinks.ts';
import { textCapabilities } from './textCapabilities.ts';
import { completionTriggers } from './triggers.ts';

/** What is offered to this client. */
export function capabilities(client: ClientFacts): ServerCapabilities {
  return {
    ...textCapabilities(client),
    ...nameCapabilities(),
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: true },
    hoverProvider: true,
    completionProvider: { triggerCharacters: completionTriggers, resolveProvider: true },
    foldingRangeProvider: true,
    ...(client.codeActionObjects
      ? { codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, fixAllKind] } }
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
