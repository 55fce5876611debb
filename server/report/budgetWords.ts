/** A component of an uncertainty budget, or a part that is left out, in words; a name without words stands for itself. */
export function componentTitle(name: string): string {
  const order = /^lobing-(\d+)$/.exec(name)?.[1];
  return order === undefined ? (titles[name] ?? name) : `lobing, order ${order}`;
}

/** Why a part is not in the budget, and what to state so that it is. */
export function notIncludedText(name: string): string {
  return reasons[name] ?? name;
}

/** All that is left out of one budget: where a direction is not known, nothing that is stated would help. */
export function notIncludedTexts(names: readonly string[]): readonly string[] {
  const unknown = names.includes('direction') ? withoutDirection : {};
  return names.map((name) => unknown[name] ?? notIncludedText(name));
}

const withoutDirection: Readonly<Record<string, string>> = {
  'effective-radius': 'the uncertainty of the effective diameter: the direction is not known here',
  runout: 'tip run-out: the direction is not known here',
};

const titles: Readonly<Record<string, string>> = {
  repeatability: 'repeatability',
  'latch-period': 'latch period',
  resolution: 'resolution',
  positioning: 'positioning',
  'effective-radius': 'effective radius',
  runout: 'tip run-out',
  temperature: 'temperature',
};

const reasons: Readonly<Record<string, string>> = {
  'oblique-touch': 'the surface met by a touch along no single axis: its direction is not in the text',
  'rotary-axis': 'what a rotary axis reads',
  direction: 'the direction of a touch: not known here',
  feed: 'the feed of a touch: not known here',
  'calibration-feed': 'the shift by feed since the calibration (state probe.calibration.feed)',
  'stopping-distance': 'how much the stopping distance varies from touch to touch',
  diameter: 'the diameter that the program uses: its value is not in the file',
  input: 'what is added that the file does not show: it may hold the compensation of the tip',
  'latch-period': 'the latch period: the feed is not known here',
  'effective-radius':
    'the uncertainty of the effective diameter (state probe.calibration.expandedUncertainty)',
  lobing: 'lobing: the direction is not known here',
  runout: 'tip run-out (state probe.runout, or calibrate at two spindle angles)',
  temperature: 'temperature (state machine.temperatureSpread)',
};
