import type {
  FileOperationOptions,
  FileOperationRegistrationOptions,
  ServerCapabilities,
} from 'vscode-languageserver';
import { programGlobs } from './programGlobs.ts';

/** What is offered about names. */
export function nameCapabilities(): ServerCapabilities {
  return {
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    renameProvider: { prepareProvider: true },
    callHierarchyProvider: true,
    documentLinkProvider: { resolveProvider: false },
    selectionRangeProvider: true,
  };
}

/** Renamed files that calls may lead to are of interest, no others. */
export const fileOperations: FileOperationOptions = {
  willRename: programFiles(),
  didRename: programFiles(),
};

function programFiles(): FileOperationRegistrationOptions {
  return { filters: programGlobs.map((glob) => ({ pattern: { glob, matches: 'file' } })) };
}
