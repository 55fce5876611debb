import type { CallSite } from '../analysis/callSites.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { programEndings } from './documentKind.ts';

/**
 * How a file may be named that a call leads to, in the order in which it is looked for beside the calling file (common
 * practice, no source): `o<edge> call` calls edge.ngc; G65 P9810 calls O9810 with the ending of the caller. Empty for a
 * name that no file beside it can have.
 */
export function calledFileNames(
  { name, written }: Pick<CallSite, 'name' | 'written'>,
  dialect: DialectName,
  callerName: string,
): readonly string[] {
  if (!canBeFileName(name)) return [];
  return dialect === 'rs274ngc'
    ? [...new Set([`${name}.ngc`, `${written}.ngc`])].filter(canBeFileName)
    : numberedNames(name, callerName);
}

/** The name of a call that finds a file of this name: the reverse; null where none does. */
export function callNameOf(fileName: string, dialect: DialectName): string | null {
  if (dialect === 'rs274ngc') {
    const name = /^(.+)\.ngc$/i.exec(fileName)?.[1] ?? null;
    if (name === null || !/^[^<>()[\]#;/\\:]+$/.test(name)) return null;
    return name.replace(/[ \t]/g, '').toLowerCase();
  }
  const digits = /^O?(\d+)(\.[^.]+)?$/i.exec(fileName)?.[1];
  return digits === undefined ? null : String(Number(digits));
}

function numberedNames(number: string, callerName: string): string[] {
  const padded = number.padStart(4, '0');
  const names = [...new Set([`O${padded}`, `O${number}`, padded, number])];
  const own = /\.([^.]+)$/.exec(callerName)?.[1];
  const endings = [...new Set([...(own && programEndings.includes(own.toLowerCase()) ? [own] : []), 'nc'])];
  return [
    ...endings.flatMap((ending) => names.map((name) => `${name}.${ending}`)),
    ...names.slice(0, 2),
  ].filter((name, index, all) => all.indexOf(name) === index);
}

/** Nothing that leads into another folder. */
function canBeFileName(name: string): boolean {
  return name !== '' && name.length <= 120 && !/[/\\:]|^\.+$/.test(name);
}
