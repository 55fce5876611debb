import type { ClientCapabilities, DiagnosticTag, InitializeParams } from 'vscode-languageserver';
import { type NameFacts, nameFacts } from './nameFacts.ts';
import { ruleDocumentLink } from './ruleLinks.ts';
import { type TextFacts, textFacts } from './textFacts.ts';

/** What the client can do, as far as an answer depends on it. Options that we don't know are not looked at. */
export interface ClientFacts {
  /** It asks for findings; else they are pushed. */
  readonly pullsFindings: boolean;
  readonly refreshesFindings: boolean;
  readonly takesPushes: boolean;
  readonly relatedInformation: boolean;
  readonly codeDescription: boolean;
  readonly diagnosticTags: ReadonlySet<DiagnosticTag>;
  readonly markdown: boolean;
  /** It draws pictures in Markdown. */
  readonly pictures: boolean;
  readonly snippets: boolean;
  readonly codeActionObjects: boolean;
  readonly nestedSymbols: boolean;
  /** It tells of changed files once it is asked to. */
  readonly watchesFiles: boolean;
  /** It answers our own requests for files. */
  readonly offersFiles: boolean;
  /** Commands of its own that a code action may name. */
  readonly commands: ReadonlySet<string>;
  /** Link to a rule's page, `{rule}` for its id; null: there is none. */
  readonly ruleLink: string | null;
  /** Who shows what the link leads to. */
  readonly rulePages: 'from-client' | 'from-server' | 'nowhere';
  readonly text: TextFacts;
  readonly names: NameFacts;
}

export function clientFacts(
  params: Pick<InitializeParams, 'capabilities' | 'initializationOptions'>,
): ClientFacts {
  const capabilities: ClientCapabilities = params.capabilities ?? {};
  const own = ownOptions(params.initializationOptions);
  const { textDocument, workspace } = capabilities;
  const published = textDocument?.publishDiagnostics;
  const pulled = textDocument?.diagnostic;
  return {
    pullsFindings: pulled !== undefined,
    refreshesFindings: workspace?.diagnostics?.refreshSupport === true,
    takesPushes: published !== undefined || pulled === undefined,
    relatedInformation:
      (pulled ?? published)?.relatedInformation === true || published?.relatedInformation === true,
    codeDescription: pulled?.codeDescriptionSupport === true || published?.codeDescriptionSupport === true,
    diagnosticTags: new Set((pulled?.tagSupport ?? published?.tagSupport)?.valueSet),
    markdown: textDocument?.hover?.contentFormat?.includes('markdown') === true,
    pictures: own.pictures === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    codeActionObjects: textDocument?.codeAction?.codeActionLiteralSupport !== undefined,
    nestedSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    offersFiles: own.offersFiles === true,
    commands: new Set(
      Array.isArray(own.commands) ? own.commands.filter((name) => typeof name === 'string') : [],
    ),
    ...rulePages(own.ruleLink, workspace?.textDocumentContent !== undefined),
    text: textFacts(params, own),
    names: nameFacts(capabilities),
  };
}

function rulePages(ownLink: unknown, takesDocuments: boolean): Pick<ClientFacts, 'ruleLink' | 'rulePages'> {
  if (typeof ownLink === 'string') return { ruleLink: ownLink, rulePages: 'from-client' };
  if (takesDocuments) return { ruleLink: ruleDocumentLink, rulePages: 'from-server' };
  return { ruleLink: null, rulePages: 'nowhere' };
}

/** A client may send anything here, also something meant for another server. */
function ownOptions(options: unknown): Readonly<Record<string, unknown>> {
  return typeof options === 'object' && options !== null ? (options as Record<string, unknown>) : {};
}
