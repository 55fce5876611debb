import {
  BulkRegistration,
  type Connection,
  DocumentFormattingRequest,
  DocumentOnTypeFormattingRequest,
  DocumentRangeFormattingRequest,
} from 'vscode-languageserver';
import type { TextFacts } from './textFacts.ts';
import { formatTriggers } from './triggers.ts';

/**
 * Offers formatting of programs alone, where the client takes such an offer: the profile, which it gives us too, has the
 * editor's own formatter, and with two of them the editor would ask which one to use.
 */
export async function offerFormatting(
  connection: Connection,
  { offersByLanguage }: TextFacts,
): Promise<void> {
  if (!offersByLanguage) return;
  const documentSelector = [{ language: 'gcode' }];
  const all = BulkRegistration.create();
  all.add(DocumentFormattingRequest.type, { documentSelector });
  all.add(DocumentRangeFormattingRequest.type, { documentSelector });
  all.add(DocumentOnTypeFormattingRequest.type, { documentSelector, ...formatTriggers });
  await connection.client.register(all);
}
