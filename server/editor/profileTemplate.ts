import { type ProfileEntry, profileEntries } from './profileEntries.ts';

/**
 * A profile to begin with. Every value is commented out: one that is only built in must not look like one that somebody
 * has measured.
 */
export function profileTemplate(): string {
  const lines = profileEntries()
    .filter(({ name }) => name !== 'rules')
    .flatMap((entry) => entryLines(entry, '  '));
  return [
    '{',
    ...heading,
    ...lines,
    '  // Severity of single rules: "off", "info", "warning" or "error".',
    '  "rules": {}',
    '}',
    '',
  ].join('\n');
}

const heading = [
  '  // The probe and the machine that it hangs in: every check and every expected error is computed from here.',
  '  // Take the // away from a line and put your own value; what stays commented out has its built-in value.',
];

/** Values that the program can't guess, as somebody might write them. */
const examples: Readonly<Record<string, unknown>> = {
  dialect: 'rs274ngc',
  'probe.tool': 99,
  'probe.stylus.stemDiameter': 2.7,
  'probe.seat.angle': 0,
  'probe.runout': 0.005,
  'probe.history': 'calibrations.jsonl',
  'probe.calibration.date': '2025-03-31',
  'probe.calibration.spindle': 0,
  'probe.calibration.effectiveDiameter': 3.985,
  'probe.calibration.expandedUncertainty': 0.002,
  'probe.calibration.feed': 40,
  'probe.calibration.temperature': 20,
  'probe.calibration.residualStandardDeviation': 0.001,
  'probe.calibration.degreesOfFreedom': 22,
  'probe.calibration.harmonics': [{ order: 3, cosine: 0.002, sine: 0 }],
  'probe.calibration.touches': 'touches.csv',
  'machine.travel.x': 500,
  'machine.travel.y': 400,
  'machine.travel.z': 400,
  'machine.temperatureSpread': 2,
  placementUncertainty: 1,
  effectiveDiameterParameter: '#520',
};

function entryLines(entry: ProfileEntry, indent: string): string[] {
  const about = `${indent}// ${entry.description}`;
  if (entry.inside?.every(({ builtIn, inside }) => inside === null && builtIn === undefined)) {
    // An empty group of these would state something: that no limit is known.
    const values = entry.inside.map(({ key, name }) => `"${name}": ${JSON.stringify(examples[key])}`);
    return [about, `${indent}// "${entry.name}": { ${values.join(', ')} },`];
  }
  if (entry.inside !== null) {
    const inside = entry.inside.flatMap((each) => entryLines(each, `${indent}  `));
    return [about, `${indent}"${entry.name}": {`, ...inside, `${indent}},`];
  }
  if (entry.name === 'units') return [about, `${indent}"units": "mm",`];
  const value = entry.builtIn ?? examples[entry.key];
  return [about, `${indent}// "${entry.name}": ${JSON.stringify(value)},`];
}
