import type { DocumentLink } from 'vscode-languageserver';
import { callSites } from '../analysis/callSites.ts';
import { comparable } from '../workspace/address.ts';
import { fileName } from '../workspace/documentKind.ts';
import type { KnownProgram } from '../workspace/relatedPrograms.ts';
import { rangeOf } from './ranges.ts';

/** Calls that lead into other files, each to its file. */
export function documentLinks(program: KnownProgram, withTooltips: boolean): DocumentLink[] {
  const links: DocumentLink[] = [];
  for (const { name, place } of callSites(program.source)) {
    const callee = program.callee(name);
    if (!callee || comparable(callee.uri) === comparable(program.uri)) continue;
    const tooltip = withTooltips ? { tooltip: `Open ${fileName(callee.uri)}` } : {};
    links.push({ range: rangeOf(place), target: callee.uri, ...tooltip });
  }
  return links;
}
