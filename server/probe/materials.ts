/** A number about a material and where it was read. */
interface SourcedNumber {
  readonly value: number;
  readonly source: string;
}

export type StemMaterial = 'steel' | 'tungsten-carbide' | 'ceramic' | 'carbon-fibre';

/** Young's modulus of what stylus stems are made of, N/mm² (MPa). */
export const stemMaterials: Readonly<Record<StemMaterial, SourcedNumber>> = {
  steel: {
    value: 207_000,
    source: 'Callister & Rethwisch, Fundamentals of Materials Science and Engineering 3e, Table B.2 p. 804',
  },
  'tungsten-carbide': {
    value: 620_000,
    source: 'Appl. Sci. 15(23) (2025) 12392, sec. 1 (stylus stems); a supplier table of WC-Co says 630 GPa',
  },
  ceramic: {
    value: 380_000,
    source:
      'Callister & Rethwisch, Fundamentals of Materials Science and Engineering 3e, Table B.2 p. 806 (alumina 99.9 %)',
  },
  // Stems of up to 450 GPa are reported; the lower handbook value predicts the larger pre-travel.
  'carbon-fibre': {
    value: 220_000,
    source:
      'Callister & Rethwisch, Fundamentals of Materials Science and Engineering 3e, Table B.2 p. 807 (high-modulus carbon/epoxy, Vf 0.6, along the fibre)',
  },
};

const callister = 'Callister & Rethwisch, Fundamentals of Materials Science and Engineering 3e, Table B.6';

export type PartMaterial = keyof typeof partMaterials;

/** Linear expansion of what parts and references are made of, 1/K near 20 °C. */
export const partMaterials = {
  steel: { value: 11.5e-6, source: 'Swyt, J. Res. NIST 99 (1994) 31, sec. 1; JCGM 100:2008 H.1.3.3' },
  'alloy-steel': { value: 12.3e-6, source: `${callister} p. 815 (4140, 4340)` },
  'stainless-steel': {
    value: 17.2e-6,
    source: 'type 304, from memory; martensitic grades are nearer to plain steel',
  },
  'martensitic-stainless-steel': { value: 10.2e-6, source: `${callister} p. 815 (440A)` },
  'cast-iron': { value: 11.4e-6, source: 'grey iron, from memory' },
  aluminium: { value: 23.1e-6, source: 'Swyt, J. Res. NIST 99 (1994) 31, sec. 1' },
  brass: { value: 20.5e-6, source: `${callister} p. 816 (C36000)` },
  titanium: { value: 8.6e-6, source: `${callister} p. 816 (Ti-6Al-4V)` },
  'tungsten-carbide': { value: 5.1e-6, source: 'materials table of a ceramics supplier (Co binder)' },
  alumina: { value: 7.4e-6, source: `${callister} p. 817 (99.9 %)` },
  'silicon-nitride': { value: 3.1e-6, source: `${callister} p. 817 (sintered)` },
  zirconia: { value: 9.6e-6, source: `${callister} p. 817 (3 mol% yttria)` },
  silicon: { value: 2.6e-6, source: 'Swyt, J. Res. NIST 99 (1994) 31, sec. 1' },
  'carbon-fibre': {
    value: -0.5e-6,
    source: `${callister} p. 818 (high-modulus carbon/epoxy, Vf 0.6, along the fibre)`,
  },
} as const satisfies Readonly<Record<string, SourcedNumber>>;
