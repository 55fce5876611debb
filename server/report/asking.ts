/** How a person is told to state something: by options in a terminal, by what the editor asks. */
export interface Asking {
  readonly without: (rows: readonly number[]) => string;
  readonly referenceKind: (kinds: string) => string;
  readonly referenceUncertainty: string;
  readonly inches: string;
  readonly units: string;
  readonly tipDiameter: string;
  readonly spindles: string;
  readonly wholeTable: string;
  readonly tableToFillIn: string;
}

export const byOptions: Asking = {
  without: (rows) => `--without ${rows.join(',')} leaves out what you know to be wrong`,
  referenceKind: (kinds) => `--reference-kind ${kinds}`,
  referenceUncertainty: '--reference-uncertainty, k = 2',
  inches: '--units inch',
  units: '--units, --tip-diameter and the units of the profile',
  tipDiameter: '--tip-diameter, or probe.tipDiameter in the profile',
  spindles: '--spindle 0,180',
  wholeTable: '--format json has all',
  tableToFillIn: '--format csv writes the table to fill in',
};

export const inTheEditor: Asking = {
  without: () => 'Take the lines that you know to be wrong out of the table, or put # before them',
  referenceKind: (kinds) => `Say ${kinds} when you are asked what was touched`,
  referenceUncertainty: 'its certificate has it, k = 2',
  inches: 'State "units": "inch" in the profile',
  units: 'the units and probe.tipDiameter of the profile',
  tipDiameter: 'probe.tipDiameter in the profile',
  spindles: 'name 0,180 when you are asked',
  wholeTable: 'the file of the touches has all',
  tableToFillIn: 'The table to fill in stands beside this page',
};
