import type { ClientCapabilities } from 'vscode-languageserver';

/** What a client can do with edits over several files. */
export interface NameFacts {
  /** It takes edits with the version of the document that they are for. */
  readonly versionedEdits: boolean;
  /** It renames files as a part of an edit. */
  readonly renamesFiles: boolean;
  readonly linkTooltips: boolean;
}

export function nameFacts({ workspace, textDocument }: ClientCapabilities): NameFacts {
  const edits = workspace?.workspaceEdit;
  const versionedEdits = edits?.documentChanges === true;
  return {
    versionedEdits,
    renamesFiles: versionedEdits && edits?.resourceOperations?.includes('rename') === true,
    linkTooltips: textDocument?.documentLink?.tooltipSupport === true,
  };
}
