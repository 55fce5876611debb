import { type Connection, MessageType, ShowMessageNotification } from 'vscode-languageserver';
import { explain } from '../checks/registry.ts';
import { explainRuleCommand } from '../protocol/requests.ts';
import type { Program } from '../workspace/program.ts';
import { answerNames } from './answerNames.ts';
import { answerTextFeatures } from './answerTextFeatures.ts';
import { codeActions } from './codeActions.ts';
import { completion } from './completion.ts';
import { foldingRanges } from './foldingRanges.ts';
import { guarded } from './guard.ts';
import { hover } from './hover.ts';
import { type AboutProgram, onProgram as onOpenProgram } from './onProgram.ts';
import { resolveCompletion } from './resolveCompletion.ts';
import { ruleDocumentLink } from './ruleLinks.ts';
import { rulePage } from './rulePage.ts';
import type { Session } from './session.ts';

/** The language features: each takes the program as it stands when the request comes in. */
export function answerFeatures(connection: Connection, session: Session): void {
  const { client, log } = session;
  const onProgram = <P extends AboutProgram, R>(
    name: string,
    none: R,
    answer: (program: Program, params: P) => R | Promise<R>,
  ) => onOpenProgram(session, name, none, answer);

  connection.onHover(onProgram('hover', null, (program, { position }) => hover(program, position, client)));
  connection.onCompletion(
    onProgram('completion', null, (program, { position, context }) =>
      completion(program, position, context?.triggerCharacter, client),
    ),
  );
  connection.onCompletionResolve(guarded('completion resolve', log, resolveCompletion));
  connection.onCodeAction(
    onProgram('codeAction', null, (program, { range, context }) =>
      codeActions(program, range, context, client),
    ),
  );
  connection.onFoldingRanges(onProgram('foldingRange', null, foldingRanges));
  connection.languages.diagnostics.on(
    guarded('diagnostic', log, ({ textDocument, previousResultId }, token) =>
      session.findings.pull(textDocument.uri, previousResultId, token),
    ),
  );
  answerRulePages(connection, session);
  answerTextFeatures(connection, session);
  answerNames(connection, session);
}

/** For clients without the command of ours: the page as a document, or as a message. */
function answerRulePages(connection: Connection, { client, log }: Session): void {
  connection.workspace.textDocumentContent.on(
    guarded('textDocumentContent', log, ({ uri }) => ({
      text: rulePage(uri) ?? `There is no rule at ${uri}.`,
    })),
  );
  connection.onExecuteCommand(
    guarded('executeCommand', log, async ({ command, arguments: given }) => {
      if (command !== explainRuleCommand) return null;
      const rule = String(given?.[0] ?? '');
      const page = explain(rule);
      if (page !== null && client.rulePages === 'from-server') {
        await connection.window.showDocument({ uri: ruleDocumentLink.replace('{rule}', rule) });
      } else await showMessage(connection, page ?? `There is no rule ${rule}.`);
      return page;
    }),
  );
}

/** A message without buttons: nobody has to answer it. */
function showMessage(connection: Connection, message: string): Promise<void> {
  return connection.sendNotification(ShowMessageNotification.type, { type: MessageType.Info, message });
}
