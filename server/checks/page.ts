import type { Example, Rule, Severity } from './rule.ts';

/** The page of a rule as Markdown. */
export function pageOf(rule: Rule): string {
  return `${[
    `# ${rule.id}: ${rule.title}`,
    severityNames[rule.severity],
    section('What it reports', rule.what),
    section('What happens at the machine', rule.why),
    section('Instead', rule.instead),
    ...rule.fails.map((example) => section(`Reported (${example.dialect})`, code(example))),
    ...rule.passes.map((example) => section(`Right (${example.dialect})`, code(example))),
    section('Source', rule.source),
    `To allow it at one block, say why: \`(probewright: allow ${rule.id} - reason)\`, at its end or alone before it.`,
  ].join('\n\n')}\n`;
}

const severityNames: Readonly<Record<Severity, string>> = {
  error: 'Error: it would damage something or give a wrong datum.',
  warning: 'Warning: probably wrong, or relying on luck.',
  info: 'Information.',
};

function section(title: string, text: string): string {
  return `## ${title}\n\n${text}`;
}

function code({ program, profile }: Example): string {
  const withProfile = profile ? `\n\nwith this profile:\n\n\`\`\`json\n${profile}\n\`\`\`` : '';
  return `\`\`\`gcode\n${program.trimEnd()}\n\`\`\`${withProfile}`;
}
