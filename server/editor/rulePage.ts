import { explain } from '../checks/registry.ts';
import { ruleScheme } from './ruleLinks.ts';

/** The page behind such an address; null: no such rule. */
export function rulePage(uri: string): string | null {
  const rule = new RegExp(`^${ruleScheme}:/+([a-z0-9-]+)\\.md$`).exec(uri)?.[1];
  return rule === undefined ? null : explain(rule);
}
