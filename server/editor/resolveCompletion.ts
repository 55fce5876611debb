import { type CompletionItem, MarkupKind } from 'vscode-languageserver';
import { explain } from '../checks/registry.ts';
import { codesOf } from '../program/codes.ts';
import type { DialectName } from '../syntax/dialect.ts';

/** Adds the page to the item that the person looks at. */
export function resolveCompletion(item: CompletionItem): CompletionItem {
  const page = pageOf(item);
  return page === null ? item : { ...item, documentation: { kind: MarkupKind.Markdown, value: page } };
}

function pageOf({ data, textEdit }: CompletionItem): string | null {
  const about = data as
    | { kind?: unknown; code?: unknown; dialect?: unknown; id?: unknown; about?: unknown }
    | null
    | undefined;
  switch (about?.kind) {
    case 'rule':
      return explain(String(about.id));
    case 'code':
      return codesOf(about.dialect as DialectName).find(({ code }) => code === about.code)?.help ?? null;
    case 'routine':
      return `${String(about.about)}\n\n\`\`\`gcode\n${textEdit?.newText ?? ''}\n\`\`\``;
    default:
      return null;
  }
}
