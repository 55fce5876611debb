import { explain as pageOf, rules } from '../checks/registry.ts';
import type { Rule, Severity } from '../checks/rule.ts';
import { closestName } from '../profile/closestName.ts';
import { type Style, styleFor } from '../report/style.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';

/** `probewright explain RULE`: the rule's page in Markdown; without a rule, the list of them. */
export function explain(rule: string | null, terminal: Terminal): ExitStatus {
  const style = styleFor(terminal.colour);
  if (rule === null) {
    terminal.out(listText(style));
    return 0;
  }
  const page = pageOf(rule);
  if (page === null) {
    const near = closestName(
      rule,
      rules.map(({ id }) => id),
    );
    const hint = near === null ? '`probewright explain` lists the rules.' : `Did you mean ${near}?`;
    return refuse(terminal, [`there is no rule "${rule}". ${hint}`]);
  }
  terminal.out(page.replace(/^#+ .*/gm, style.bold));
  return 0;
}

const severities: readonly Severity[] = ['error', 'warning', 'info'];

function listText(style: Style): string {
  const width = Math.max(...rules.map(({ id }) => id.length));
  const line = ({ id, title }: Rule) => `  ${id.padEnd(width)}  ${style.dim(title)}\n`;
  return severities
    .map((severity) => ({ severity, of: rules.filter((rule) => rule.severity === severity) }))
    .filter(({ of }) => of.length > 0)
    .map(({ severity, of }) => `${style.bold(severity)}\n${of.map(line).join('')}`)
    .join('\n');
}
