/** A code with its modal group (empty: none), a title and a sentence on what it does. */
export type CodeRow = readonly [code: string, group: string, title: string, help: string];
