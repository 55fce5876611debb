/** Files as the workspace sees them; who reads them (the client, or Node) is decided at the rim. */
export interface Files {
  /** null: no such file, or not readable. */
  read(uri: string): Promise<string | null>;
  /** The nearest file of that name in the folder of `uri` or above it. */
  findUpwards(uri: string, name: string): Promise<{ readonly uri: string; readonly text: string } | null>;
}
