/**
 * Text for people, written once and shown as Markdown or as plain text. Strings may hold `**bold**`, `` `code` `` and
 * `[links](address)`; text that comes from a program goes through `code`.
 */
export type Part =
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'tree'; readonly branches: readonly Branch[] }
  /** Columns named in `right` stand to the right, as numbers do. */
  | {
      readonly kind: 'table';
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
      readonly right: readonly number[];
    }
  | { readonly kind: 'program'; readonly text: string }
  /** Lines that are set as they stand. */
  | { readonly kind: 'figures'; readonly text: string }
  | { readonly kind: 'picture'; readonly svg: string; readonly alt: string }
  | { readonly kind: 'rule' };

/** A line of a tree, and what hangs on it. */
export interface Branch {
  readonly text: string;
  readonly branches: readonly Branch[];
}

export function paragraph(text: string): Part {
  return { kind: 'paragraph', text };
}

export function toMarkdown(parts: readonly Part[], options: { readonly pictures: boolean }): string {
  return parts
    .filter((part) => part.kind !== 'picture' || options.pictures)
    .map(markdownOf)
    .join('\n\n');
}

export function toPlain(parts: readonly Part[]): string {
  return parts
    .filter((part) => part.kind !== 'picture' && part.kind !== 'rule')
    .map(plainOf)
    .join('\n\n');
}

/** Text of a program as a span of code: nothing in it is taken for Markdown. */
export function code(text: string): string {
  const runs = text.match(/`+/g)?.map((run) => run.length) ?? [];
  const fence = '`'.repeat(Math.max(0, ...runs) + 1);
  const pad = text.startsWith('`') || text.endsWith('`') ? ' ' : '';
  return `${fence}${pad}${text.replace(/[\r\n]+/g, ' ')}${pad}${fence}`;
}

function markdownOf(part: Part): string {
  switch (part.kind) {
    case 'paragraph':
      return part.text;
    case 'list':
      return part.items.map((item) => `- ${item}`).join('\n');
    case 'tree':
      return treeOf(part.branches, (text) => text);
    case 'table':
      return [
        tableRow(part.head),
        tableRow(part.head.map((_, column) => (part.right.includes(column) ? '--:' : '---'))),
        ...part.rows.map(tableRow),
      ].join('\n');
    case 'program':
      return `\`\`\`gcode\n${part.text}\n\`\`\``;
    case 'figures':
      return `\`\`\`text\n${part.text.trimEnd()}\n\`\`\``;
    case 'picture':
      return `![${part.alt}](data:image/svg+xml;base64,${base64(part.svg)})`;
    case 'rule':
      return '---';
  }
}

function treeOf(branches: readonly Branch[], shown: (text: string) => string, indent = ''): string {
  return branches
    .flatMap((branch) => [
      `${indent}- ${shown(branch.text)}`,
      ...(branch.branches.length === 0 ? [] : [treeOf(branch.branches, shown, `${indent}  `)]),
    ])
    .join('\n');
}

function tableRow(cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}

function plainOf(part: Part): string {
  switch (part.kind) {
    case 'paragraph':
      return bare(part.text);
    case 'list':
      return part.items.map((item) => `- ${bare(item)}`).join('\n');
    case 'tree':
      return treeOf(part.branches, bare);
    case 'table':
      return plainTable([part.head, ...part.rows], part.right);
    case 'program':
    case 'figures':
      return part.text;
    default:
      return '';
  }
}

function plainTable(rows: readonly (readonly string[])[], right: readonly number[]): string {
  const cells = rows.map((row) => row.map(bare)).filter((row) => row.some((cell) => cell !== ''));
  const columns = Math.max(0, ...cells.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, column) =>
    Math.max(0, ...cells.map((row) => row[column]?.length ?? 0)),
  );
  const padded = (cell: string, column: number) =>
    right.includes(column) ? cell.padStart(widths[column] ?? 0) : cell.padEnd(widths[column] ?? 0);
  return cells.map((row) => row.map(padded).join('  ').trimEnd()).join('\n');
}

function bare(text: string): string {
  return text
    .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replaceAll('**', '')
    .replace(/(`+) ?(.*?) ?\1/g, '$2');
}

/** UTF-8 in base64, without what only Node or only a browser has. */
function base64(text: string): string {
  const bytes = new TextEncoder().encode(text);
  let out = '';
  for (let at = 0; at < bytes.length; at += 3) {
    const group = ((bytes[at] ?? 0) << 16) | ((bytes[at + 1] ?? 0) << 8) | (bytes[at + 2] ?? 0);
    const digits = [18, 12, 6, 0].map((shift) => alphabet[(group >> shift) & 63]);
    out += digits
      .slice(0, Math.min(4, bytes.length - at + 1))
      .join('')
      .padEnd(4, '=');
  }
  return out;
}

const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
