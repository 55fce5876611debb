import type { Finding, Fix, Severity } from '../checks/rule.ts';
import type { CheckedProgram, CheckReport, CheckSummary } from './checkReport.ts';
import { counted } from './counted.ts';
import { excerpt } from './excerpt.ts';
import { printable, type Style } from './style.ts';
import { wrapIndented } from './wrap.ts';

/** Findings of one rule in one program that are shown in full; the rest are counted. */
const shownOfARule = 20;

/** For people: each finding with its lines, what is related, and the fix. */
export function checkText(style: Style, width: number): CheckReport {
  return {
    *begin() {},
    *program(program: CheckedProgram) {
      if (program.findings.length === 0) return;
      yield `${style.bold(printable(program.path))} ${style.dim(`(${program.dialect})`)}\n\n`;
      const seen = new Map<string, number>();
      for (const finding of program.findings) {
        const before = seen.get(finding.rule) ?? 0;
        seen.set(finding.rule, before + 1);
        if (before < shownOfARule) yield findingText(finding, program, style, width);
      }
      for (const [rule, count] of seen)
        if (count > shownOfARule)
          yield `  ${style.dim(`and ${count - shownOfARule} more of ${rule} in this program; --format json lists them all`)}\n\n`;
    },
    *end(summary: CheckSummary) {
      yield summaryText(summary, style);
    },
  };
}

function findingText(finding: Finding, program: CheckedProgram, style: Style, width: number): string {
  const { place, severity, rule } = finding;
  const accent = accentOf(severity, style);
  const at = `${place.line + 1}:${place.start + 1}`;
  const head = `  ${at.padEnd(8)} ${accent(style.bold(severity))}  ${style.dim(rule)}\n`;
  const marks = [
    { place, label: '', main: true },
    ...finding.related.map((related) => ({
      place: related.place,
      label: printable(related.message),
      main: false,
    })),
  ];
  return `${head}${wrapIndented(printable(finding.message), width, 4)}${excerpt(
    marks,
    program.line,
    style,
    accent,
    width,
  )}${finding.fixes.map((fix) => fixText(fix, style, width)).join('')}\n`;
}

function fixText({ title, changesMotion }: Fix, style: Style, width: number): string {
  const label = changesMotion ? 'fix in the editor:' : '--fix:';
  const text = wrapIndented(`${label} ${printable(title)}`, width, 4);
  return text.replace(label, style.green(label));
}

function accentOf(severity: Severity, style: Style): (text: string) => string {
  return severity === 'error' ? style.red : severity === 'warning' ? style.yellow : style.cyan;
}

/** What was found, and no more than that: nothing found is not a promise. */
function summaryText(
  { error, warning, info, suppressed, known, programs }: CheckSummary,
  style: Style,
): string {
  const held = known === 0 ? '' : `, ${counted(known, 'finding')} held by the baseline`;
  const allowed = suppressed === 0 ? held : `, ${counted(suppressed, 'finding')} allowed by a comment${held}`;
  if (error + warning + info === 0)
    return `${counted(programs, 'program')} checked: nothing found${allowed}. ${style.dim('This is what the text shows; prove it above the part first.')}\n`;
  const parts = [
    error > 0 ? style.red(counted(error, 'error')) : '',
    warning > 0 ? style.yellow(counted(warning, 'warning')) : '',
    info > 0 ? style.cyan(counted(info, 'note')) : '',
  ].filter((part) => part !== '');
  const why = style.dim('`probewright explain RULE` says why, and what to write instead.');
  return `${parts.join(', ')} in ${counted(programs, 'program')}${allowed}. ${why}\n`;
}
