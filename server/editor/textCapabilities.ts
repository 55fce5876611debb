import type { ServerCapabilities } from 'vscode-languageserver';
import type { ClientFacts } from './clientFacts.ts';
import { tokenLegend } from './tokenLegend.ts';
import { formatTriggers, signatureRetriggers, signatureTriggers } from './triggers.ts';

/** What is offered to this client of what is shown on the text. */
export function textCapabilities({ text }: ClientFacts): ServerCapabilities {
  return {
    positionEncoding: text.encoding,
    semanticTokensProvider: { legend: tokenLegend, full: { delta: true }, range: true },
    inlayHintProvider: { resolveProvider: true },
    codeLensProvider: { resolveProvider: true },
    signatureHelpProvider: {
      triggerCharacters: [...signatureTriggers],
      retriggerCharacters: [...signatureRetriggers],
    },
    ...(text.offersByLanguage
      ? {}
      : {
          documentFormattingProvider: true,
          documentRangeFormattingProvider: true,
          documentOnTypeFormattingProvider: formatTriggers,
        }),
  };
}
