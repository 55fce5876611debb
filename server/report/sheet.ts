/** What a command found, in rows that a terminal and a page set each in their own way. */
export interface Sheet {
  /** What it is about, and more of that behind it. */
  readonly name: string;
  readonly about: string;
  readonly rows: readonly Row[];
  /** What a person has to know beside the rows. */
  readonly notes: readonly Row[];
}

export type Tone = 'plain' | 'main' | 'good' | 'warning' | 'error' | 'aside';

export interface Row {
  /** Empty: goes on with what the row before is about. */
  readonly label: string;
  readonly text: string;
  readonly tone: Tone;
  /** Under the text. */
  readonly table: Table | null;
}

export interface Table {
  readonly columns: readonly Column[];
  readonly rows: readonly { readonly cells: readonly string[]; readonly tone: Tone }[];
}

/** `head` names it on a page, `before` in each line of a terminal, where there is no head. */
export interface Column {
  readonly head: string;
  readonly before: string;
}

export function row(label: string, text: string, tone: Tone = 'plain', table: Table | null = null): Row {
  return { label, text, tone, table };
}

/** Rows of which the first alone has the label. */
export function rowsUnder(label: string, texts: readonly string[], tone: Tone = 'plain'): Row[] {
  return texts.map((text, index) => row(index === 0 ? label : '', text, tone));
}

export function column(head: string, before = ''): Column {
  return { head, before };
}
