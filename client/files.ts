import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type FindUpwardsParams,
  type FindUpwardsResult,
  findUpwards as findUpwardsRequest,
  type ReadFileParams,
  type ReadFileResult,
  readFile,
} from '../server/protocol/requests.ts';

/** The server reads no disk: it asks here, so that remote and virtual workspaces are the same case. */
export function answerFileRequests(client: LanguageClient): void {
  client.onRequest(readFile, async ({ uri }: ReadFileParams): Promise<ReadFileResult> => {
    const text = await textOf(vscode.Uri.parse(uri));
    return text === null ? null : { text };
  });
  client.onRequest(
    findUpwardsRequest,
    async ({ uri, name }: FindUpwardsParams): Promise<FindUpwardsResult> => {
      const found = await findUpwards(vscode.Uri.parse(uri), name);
      return found && { uri: found.uri.toString(), text: found.text };
    },
  );
}

/** The nearest file of that name in the folder of a document or above it, as the command line finds it. */
export async function findUpwards(
  document: vscode.Uri,
  name: string,
): Promise<{ readonly uri: vscode.Uri; readonly text: string } | null> {
  for (const folder of foldersUpwards(document)) {
    const uri = vscode.Uri.joinPath(folder, name);
    const text = await textOf(uri);
    if (text !== null) return { uri, text };
  }
  return null;
}

/** An open document counts as it stands in the editor, saved or not. */
async function textOf(uri: vscode.Uri): Promise<string | null> {
  const open = vscode.workspace.textDocuments.find((document) => document.uri.toString() === uri.toString());
  if (open) return open.getText();
  try {
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch {
    return null;
  }
}

/** The folder of a document and those above it, up to the root: the opened folder may lie below the profile's. */
function* foldersUpwards(uri: vscode.Uri): Iterable<vscode.Uri> {
  if (uri.scheme === 'untitled') {
    const [first] = vscode.workspace.workspaceFolders ?? [];
    if (first) yield first.uri;
    return;
  }
  let folder = vscode.Uri.joinPath(uri, '..');
  for (;;) {
    yield folder;
    if (folder.path === '/' || folder.path === '') return;
    folder = vscode.Uri.joinPath(folder, '..');
  }
}
