import { closestName } from '../profile/closestName.ts';
import type { Dialect } from '../syntax/dialect.ts';
import { dialects } from '../syntax/dialects.ts';
import { type Directive, readDirective } from '../syntax/directives.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import { directives } from '../syntax/suppressions.ts';
import { replaced } from './lineEdits.ts';
import type { Fix, Report } from './rule.ts';

type Unknown = Directive & { readonly kind: 'unknown' };

/** Comments that are meant for us and that nobody obeys, with the closest right spelling where there is one. */
export function misspeltComments(source: Source, ruleIds: readonly string[]): Report[] {
  return [...directives(source)].flatMap(({ directive, place }) => {
    if (directive.kind !== 'unknown') return [];
    const text = source.text.line(place.line).slice(place.start, place.end);
    const inside = text.replace(/^[(;]/, '').replace(/\)$/, '');
    const right = rightSpelling(inside, ruleIds);
    // What only looks like our name is somebody's prose, unless it reads as ours once it is put right.
    if (directive.problem === 'other-name' && right === null) return [];
    return [
      {
        message: `${problems[directive.problem](directive.written)}, so this comment does nothing.${right === null ? '' : ` Perhaps it should be: ${right}`}`,
        place,
        fixes:
          right !== null && isWhole(right)
            ? [
                respelling(
                  right,
                  place,
                  text.replace(inside, () => right),
                ),
              ]
            : [],
      },
    ];
  });
}

function respelling(right: string, place: Place, text: string): Fix {
  return { title: `Write "${right}"`, edits: [replaced(place.line, place, text)], changesMotion: false };
}

/** A reason that is missing is not made up here. */
function isWhole(right: string): boolean {
  const read = readDirective(right);
  return read?.kind === 'dialect' || (read?.kind === 'allow' && read.reason !== null);
}

const problems: Readonly<Record<Unknown['problem'], (written: string) => string>> = {
  'no-colon': () => 'A colon is missing behind "probewright"',
  'nothing-asked': () => 'Nothing stands behind "probewright:"',
  'unknown-word': (written) => `"${firstWord(written)}" is neither "allow" nor "dialect"`,
  'no-rule': () => '"allow" names no rule',
  'unknown-dialect': (written) =>
    `"${written.replace(/^\s*\w+\s*/, '')}" is none of the dialects ${Object.keys(dialects).join(' and ')}`,
  'other-name': (written) => `"${firstWord(written)}" is not "probewright"`,
};

function firstWord(written: string): string {
  return /^[^\s:]+/.exec(written)?.[0] ?? written;
}

/** The comment with each of its parts in the nearest right form; null where that is no comment of ours either. */
function rightSpelling(comment: string, ruleIds: readonly string[]): string | null {
  const parts = /^\s*(prob[a-z]*(?:[- ][a-z]+(?=\s*:))?)\s*:?\s*([a-z]+)\s*(.*?)\s*$/i.exec(comment);
  if (!parts) return null;
  const [, name = '', word = '', rest = ''] = parts;
  const verb = closestName(word, ['allow', 'dialect']);
  if (closestName(name.replace(/[- ]/, ''), ['probewright']) === null || verb === null) return null;
  const right = `probewright: ${verb} ${verb === 'dialect' ? dialectIn(rest) : ruleIn(rest, ruleIds)}`.trim();
  const read = readDirective(right);
  return read?.kind === 'allow' || read?.kind === 'dialect' ? right : null;
}

function dialectIn(rest: string): Dialect['name'] | '' {
  const names = Object.values(dialects).map(({ name }) => name);
  const close = closestName(rest.replace(/[^a-z0-9]/gi, ''), names);
  return names.find((name) => name === close) ?? '';
}

/** The rule's name in its nearest right form, what follows as it stands. */
function ruleIn(rest: string, ruleIds: readonly string[]): string {
  return rest.replace(/^[a-z0-9][a-z0-9-]*/i, (written) => {
    const name = written.toLowerCase();
    return ruleIds.includes(name) ? name : (closestName(name, ruleIds) ?? name);
  });
}
