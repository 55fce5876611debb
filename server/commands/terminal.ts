/** What a command does its work on: handed in, so that a test can hand in another. */
export interface Terminal {
  /** Absolute. */
  readonly cwd: string;
  readonly files: Files;
  /** All of standard input. */
  readStandardInput(): Promise<Uint8Array>;
  out(text: string): void;
  error(text: string): void;
  /** A passing line about what is being done; null takes it away. Shown on a terminal only. */
  progress(text: string | null): void;
  readonly colour: boolean;
  /** Columns to write in. */
  readonly width: number;
}

/** Paths are absolute. */
export interface Files {
  /** null: there is no such file. */
  look(path: string): { readonly kind: 'file' | 'folder'; readonly size: number } | null;
  read(path: string): { readonly bytes: Uint8Array } | FileProblem;
  /** For files too large to be held whole; whoever opens one closes it. */
  open(path: string): OpenFile | FileProblem;
  write(path: string, bytes: Uint8Array): FileProblem | null;
  /** All of the bytes or none: a reader never sees half of them. A link stays, and what it points to is replaced. */
  replace(path: string, bytes: Uint8Array): FileProblem | null;
  /** Entries of a folder by name; links to folders are not followed. */
  list(folder: string): readonly { readonly name: string; readonly kind: 'file' | 'folder' }[] | FileProblem;
}

export interface OpenFile {
  /** Fills `into` with the bytes from `from` on, or as many as there are; gives how many. A file that was written to since it was opened is a problem. */
  read(into: Uint8Array, from: number): number | FileProblem;
  close(): void;
}

/** Why the system did not do it, in words. */
export interface FileProblem {
  readonly problem: string;
}

/** 0: nothing at error level; 1: errors found; 2: the command could not do its work. */
export type ExitStatus = 0 | 1 | 2;
