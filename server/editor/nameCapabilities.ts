import type { ServerCapabilities } from 'vscode-languageserver';

/** What is offered about names. */
export function nameCapabilities(): ServerCapabilities {
  return {
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    documentSymbolProvider: true,
    renameProvider: { prepareProvider: true },
  };
}
