import type { InitializeParams } from 'vscode-languageserver';
import { type NotesLevel, notesLevel } from './notes.ts';
import { chosenEncoding, type Encoding } from './positionEncoding.ts';

/** What a client can do with what is shown on the text. */
export interface TextFacts {
  readonly encoding: Encoding;
  /** A grammar of its own colours letters and numbers; tokens come on top. */
  readonly hasGrammar: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  /** It takes an offer of formatting for one language only. */
  readonly offersByLanguage: boolean;
  /** It answers when asked for its settings. */
  readonly hasSettings: boolean;
  /** It tells of changed settings once it is asked to. */
  readonly tellsSettings: boolean;
  /** Until its settings are known. */
  readonly notes: NotesLevel;
}

export function textFacts(
  { capabilities }: Pick<InitializeParams, 'capabilities'>,
  own: Readonly<Record<string, unknown>>,
): TextFacts {
  const { textDocument, workspace, general } = capabilities ?? {};
  return {
    encoding: chosenEncoding(general?.positionEncodings),
    hasGrammar: textDocument?.semanticTokens?.augmentsSyntaxTokens === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    offersByLanguage: [
      textDocument?.formatting,
      textDocument?.rangeFormatting,
      textDocument?.onTypeFormatting,
    ].every((each) => each?.dynamicRegistration === true),
    hasSettings: workspace?.configuration === true,
    tellsSettings: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    notes: notesLevel(own.notes),
  };
}
