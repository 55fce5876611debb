import type { Connection } from 'vscode-languageserver';
import { type FindUpwardsResult, findUpwards, type ReadFileResult, readFile } from '../protocol/requests.ts';
import type { Files } from '../workspace/files.ts';

/** Files asked of the client: remote, virtual and web workspaces are one case. */
export function clientFiles(connection: Connection): Files {
  return {
    async read(uri) {
      const file = await connection.sendRequest<ReadFileResult>(readFile, { uri });
      return file?.text ?? null;
    },
    findUpwards: (uri, name) => connection.sendRequest<FindUpwardsResult>(findUpwards, { uri, name }),
  };
}
