import type { CodeLens, Connection, SemanticTokens } from 'vscode-languageserver';
import { codeLenses, resolveCodeLens } from './codeLens.ts';
import { format, formatWhileTyping } from './formatting.ts';
import { guarded } from './guard.ts';
import { inlayHints, resolveInlayHint } from './inlayHints.ts';
import { NotesInForce } from './notesInForce.ts';
import { onProgram } from './onProgram.ts';
import { SemanticTokensOf } from './semanticTokens.ts';
import type { Session } from './session.ts';
import { signatureHelp } from './signatureHelp.ts';

/** What is shown on the text of a program: colours, hints, lines above routines, arguments; and its formatting. */
export function answerTextFeatures(connection: Connection, session: Session): void {
  answerTokens(connection, session);
  answerNotes(connection, session);
  connection.onSignatureHelp(
    onProgram(session, 'signatureHelp', null, (program, { position }) => signatureHelp(program, position)),
  );
  connection.onDocumentFormatting(
    onProgram(session, 'formatting', [], (program, { options }) => format(program, options)),
  );
  connection.onDocumentRangeFormatting(
    onProgram(session, 'rangeFormatting', [], (program, { options, range }) =>
      format(program, options, range),
    ),
  );
  connection.onDocumentOnTypeFormatting(
    onProgram(session, 'onTypeFormatting', [], (program, { position, ch, options }) =>
      formatWhileTyping(program, position, ch, options),
    ),
  );
}

function answerTokens(connection: Connection, session: Session): void {
  const { encoding, hasGrammar } = session.client.text;
  const tokens = new SemanticTokensOf({ encoding, amount: hasGrammar ? 'meaning' : 'everything' });
  const none: SemanticTokens = { data: [] };
  const { semanticTokens } = connection.languages;
  semanticTokens.on(onProgram(session, 'semanticTokens', none, (program) => tokens.full(program)));
  semanticTokens.onDelta(
    onProgram(session, 'semanticTokens delta', none, (program, { previousResultId }) =>
      tokens.delta(program, previousResultId),
    ),
  );
  semanticTokens.onRange(
    onProgram(session, 'semanticTokens range', none, (program, { range }) => tokens.range(program, range)),
  );
}

function answerNotes(connection: Connection, session: Session): void {
  const { client, log } = session;
  const notes = new NotesInForce(connection, client.text, log);
  connection.languages.inlayHint.on(
    onProgram(session, 'inlayHint', [], async (program, { range }) =>
      inlayHints(program, range, await notes.level()),
    ),
  );
  connection.languages.inlayHint.resolve(guarded('inlayHint resolve', log, resolveInlayHint));
  connection.onCodeLens(
    onProgram(session, 'codeLens', [], async (program) => codeLenses(program, await notes.level(), client)),
  );
  connection.onCodeLensResolve(
    guarded('codeLens resolve', log, async (lens: CodeLens) => {
      const program = await session.program(String((lens.data as { uri?: unknown } | undefined)?.uri));
      return program === null ? lens : resolveCodeLens(lens, program);
    }),
  );
}
