import type { Harmonic } from '../probe/probe.ts';
import type { Profile } from '../profile/profile.ts';
import type { Page } from '../protocol/requests.ts';
import { type FileProfile, pathOf } from '../workspace/fileProfile.ts';
import { type ProfileEntry, profileEntries } from './profileEntries.ts';
import { code, type Part, paragraph, toMarkdown } from './richText.ts';

/** Each value that holds for a program, and where it comes from. */
export function effectiveProfilePage({ uri, profile, problems }: FileProfile): Page {
  const title = 'Probe profile in force';
  const intro =
    uri === null
      ? 'No `probewright.json` stands in the folder of this program or above it: every value is the built-in one.'
      : `From ${code(pathOf(uri))}, the nearest profile upwards of this program.`;
  const parts: Part[] = [paragraph(`# ${title}`), paragraph(intro)];
  if (problems.length > 0) {
    parts.push(paragraph('**It can’t be used as it stands, so built-in values hold:**'));
    parts.push({
      kind: 'list',
      items: problems.map(({ message, line }) => `line ${line + 1}: ${message}`),
    });
  }
  const { inch, groups } = { inch: profile.units === 'inch', groups: sections() };
  for (const { heading, entries } of groups) {
    const rows = entries.flatMap((entry) => rowsOf(entry, profile, inch));
    if (rows.length === 0) continue;
    parts.push(paragraph(`## ${heading}`));
    parts.push({ kind: 'table', head: ['key', 'value', 'from', 'meaning'], rows, right: [1] });
  }
  return { title, markdown: toMarkdown(parts, { pictures: false }) };
}

interface Section {
  readonly heading: string;
  readonly entries: readonly ProfileEntry[];
}

/** One section for each object of the profile, so that a key stands without the path to it. */
function sections(): Section[] {
  return sectionsOf('general', profileEntries());
}

function sectionsOf(heading: string, entries: readonly ProfileEntry[]): Section[] {
  const own = { heading, entries: entries.filter(({ inside }) => inside === null) };
  const nested = entries.flatMap(({ key, inside }) => (inside === null ? [] : sectionsOf(key, inside)));
  return [own, ...nested];
}

function rowsOf(entry: ProfileEntry, profile: Profile, inch: boolean): string[][] {
  const value = valueAt(profile, entry.key);
  if (entry.key.startsWith('rules.') && value === undefined) return [];
  const stated = value !== undefined && value !== null && value !== Number.POSITIVE_INFINITY;
  const from = stated ? origins[profile.source(entry.key)] : 'not stated';
  return [[code(entry.name), stated ? shown(value, entry, inch) : '—', from, entry.description]];
}

const origins = { profile: '**profile**', 'built-in': 'built in', derived: 'derived' } as const;

function valueAt(profile: Profile, key: string): unknown {
  let value: unknown = profile;
  for (const part of key.split('.')) {
    value = typeof value === 'object' && value !== null ? Reflect.get(value, part) : undefined;
  }
  return value;
}

const units = {
  length: ['mm', 'in'],
  feed: ['mm/min', 'in/min'],
  acceleration: ['mm/s²', 'in/s²'],
} as const;

/** In the units of the profile's file. */
function shown(value: unknown, { quantity }: ProfileEntry, inch: boolean): string {
  if (Array.isArray(value))
    return value.length === 0 ? 'none' : value.map((order) => lobes(order, inch)).join('; ');
  if (typeof value !== 'number') return code(typeof value === 'string' ? value : JSON.stringify(value));
  if (quantity === null) return String(value);
  const own = inch ? value / 25.4 : value;
  return `${Number(own.toPrecision(8))} ${units[quantity][inch ? 1 : 0]}`;
}

/** As words, so that a long list breaks into lines. */
function lobes({ order, cosine, sine }: Harmonic, inch: boolean): string {
  const length = (mm: number) => `${Number((inch ? mm / 25.4 : mm).toPrecision(4))} ${inch ? 'in' : 'mm'}`;
  return `order ${order}: cosine ${length(cosine)}, sine ${length(sine)}`;
}
