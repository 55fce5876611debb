import { explain } from '../checks/registry.ts';

/** Pages of rules as documents that the server writes, for clients that ask it for documents. */
export const ruleScheme = 'probewright-rule';

export const ruleDocumentLink = `${ruleScheme}:/{rule}.md`;

/** The page behind such an address; null: no such rule. */
export function rulePage(uri: string): string | null {
  const rule = new RegExp(`^${ruleScheme}:/+([a-z0-9-]+)\\.md$`).exec(uri)?.[1];
  return rule === undefined ? null : explain(rule);
}
