import type { DialectName } from '../syntax/dialect.ts';

/** The letters of a code: each group of `needs` must have one of its letters in the block; `takes` may stand there. */
export interface CodeWords {
  readonly needs: readonly (readonly string[])[];
  readonly takes: readonly string[];
}

type Row = readonly [codes: string, needs: string, takes: string];

const axes = 'X|Y|Z|A|B|C|U|V|W';
const linear = 'X|Y|Z|U|V|W';

/** Both families. Sections of NISTIR 6556; what it does not have: common practice, no source. */
const common: readonly Row[] = [
  ['G0 G1', '', axes],
  // 3.5.3: centre or radius; checked by the plane.
  ['G2 G3', '', `${axes}|I|J|K|R|P`],
  ['G28 G30', '', axes],
  ['G41 G42', '', 'D'],
  ['G43', '', 'H'],
  ['G52', axes, ''],
  ['G53', axes, ''],
  ['G64', '', 'P|Q'],
  ['G96', 'S', 'D'],
  ['M3 M4', '', 'S|P'],
  ['M19', '', 'R|P|Q|S'],
  ['M98', 'P|H', 'L|H'],
  ['M99', '', 'P|L|Q'],
];

const rs274ngc: readonly Row[] = [
  ['G4', 'P', ''],
  ['G5', 'P Q', 'X|Y|I|J'],
  ['G5.1', 'I|J', 'X|Y'],
  ['G5.2', '', 'X|Y|P|L'],
  // 3.5.5; L0, L1, L10, L11, L20 and R are common practice.
  ['G10', 'L P', `${axes}|R|I|J|Q`],
  ['G33 G33.1', 'K', `${axes}|I|S`],
  // 3.5.9.1: an X, Y or Z word; a polar position is common practice.
  ['G38.2 G38.3 G38.4 G38.5', `${linear}|@|^`, axes],
  ['G41.1 G42.1', 'D', 'L'],
  ['G43.1', axes, 'I|J|K'],
  ['G43.2', `H|${axes}`, ''],
  ['G73', 'Q', `${axes}|L|R`],
  ['G74 G84', '', `${axes}|L|R|P|S`],
  ['G76', 'P Z I J R K', 'Q|H|E|L'],
  ['G81 G85', '', `${axes}|L|R`],
  // 3.5.16.3 to 3.5.16.10.
  ['G82 G86 G88 G89', 'P', `${axes}|L|R`],
  ['G83', 'Q', `${axes}|L|R`],
  ['G87', 'I J K', `${axes}|L|R`],
  ['G92', axes, ''],
  ['M50 M51 M52 M53', '', 'P'],
  ['M61', 'Q', ''],
  ['M62 M63 M64 M65', 'P', ''],
  ['M66', 'P|E', 'L|Q'],
  ['M67 M68', 'E Q', ''],
];

/** Common practice, no source. */
const macro: readonly Row[] = [
  ['G4', 'P|X|U', ''],
  ['G10', 'L|P', `${axes}|R|Q|D|H|N`],
  ['G12 G13', 'I', `D|F|K|L|Q|Z|${axes}`],
  ['G12.1 G13.1 G15 G16', '', ''],
  ['G27', axes, ''],
  ['G29', '', axes],
  ['G31', axes, 'P|Q|R'],
  ['G31.1 G31.2 G31.3 G31.4', axes, ''],
  ['G33', '', `${axes}|K|Q|F`],
  ['G44', '', 'H'],
  ['G51', 'P|I|J|K', axes],
  ['G50.1', '', axes],
  ['G51.1', axes, ''],
  ['G54', '', 'P'],
  ['G54.1', 'P', ''],
  ['G68', 'R', `${axes}|I|J|K`],
  ['G73 G83', 'Q', `${axes}|K|L|R|P`],
  ['G74 G84 G84.2 G84.3', '', `${axes}|K|L|R|P|Q|J|S`],
  ['G76 G87', '', `${axes}|K|L|R|P|Q|I|J`],
  ['G81 G82 G85 G86 G88 G89', '', `${axes}|K|L|R|P`],
  ['G92', `${axes}|S`, ''],
  ['M97', '', 'P|L'],
];

/** Codes whose words go to a program: every letter is an argument, P names what is called. */
const calls: Readonly<Record<DialectName, readonly string[]>> = {
  rs274ngc: [],
  macro: ['G65', 'G66', 'G66.1'],
};

const tables: Readonly<Record<DialectName, ReadonlyMap<string, CodeWords>>> = {
  rs274ngc: tableOf([...common, ...rs274ngc]),
  macro: tableOf([...common, ...macro, ...calls.macro.map((code): Row => [code, 'P', axes])]),
};

/** What a code needs and takes; null where nothing is said of it: it takes whatever stands there. */
export function wordsOfCode(code: string, dialect: DialectName): CodeWords | null {
  return tables[dialect].get(code) ?? null;
}

/** Behind these codes every letter is an argument. */
export function takesEveryWord(code: string, dialect: DialectName): boolean {
  return calls[dialect].includes(code);
}

function tableOf(rows: readonly Row[]): ReadonlyMap<string, CodeWords> {
  const table = new Map<string, CodeWords>();
  for (const [codes, needs, takes] of rows)
    for (const code of codes.split(' '))
      table.set(code, {
        needs: needs === '' ? [] : needs.split(' ').map((group) => group.split('|')),
        takes: takes === '' ? [] : takes.split('|'),
      });
  return table;
}
