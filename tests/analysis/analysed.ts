import { type Analysis, analyse } from '../../server/analysis/analysis.ts';
import type { Profile } from '../../server/profile/profile.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

export function analysed(
  program: string,
  dialect: DialectName = 'rs274ngc',
  profile: Profile = builtInProfile,
): Analysis {
  return analyse(Source.from(SourceText.from(program), dialects[dialect]), profile);
}

/** `4 retract -2`: line (1-based) of what follows, kind, component; sorted. */
export function departuresOf(a: Analysis): string[] {
  return a.departures
    .map(
      (d) =>
        `${d.touch.line + 1}>${d.place.line + 1} ${d.kind}${d.component === null ? '' : ` ${round(d.component)}`}`,
    )
    .sort();
}

/** `G54.x = 0.5*m4x 0.5*m7x + 0.5*D(effective)`: a datum as a person writes it, lines 1-based. */
export function datumsOf(a: Analysis): string[] {
  return a.datums.map((d) => {
    if (d.terms === null) return `${d.target}: ${d.reason}`;
    const terms = d.terms.map(
      (t) => `${round(t.coefficient)}*${t.from === 'latched' ? 'm' : 'p'}${t.touch.line + 1}${t.axis}`,
    );
    const diameters = d.diameters.map((x) => `${round(x.coefficient)}*D(${x.source})`);
    return `${d.target} = ${[...terms, ...diameters].join(' ')}`;
  });
}

export function untestedOf(a: Analysis): string[] {
  return a.untestedUses.map((u) => `${u.touch.line + 1}>${u.place.line + 1} ${u.how}`).sort();
}

function round(x: number): number {
  return Math.round(x * 1e6) / 1e6;
}
