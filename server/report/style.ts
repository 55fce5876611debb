/** Styles for a terminal; where colour is off every one returns its text as it is. */
export interface Style {
  bold(text: string): string;
  dim(text: string): string;
  red(text: string): string;
  yellow(text: string): string;
  cyan(text: string): string;
  green(text: string): string;
}

export function styleFor(colour: boolean): Style {
  const paint = (open: number, close: number) => (text: string) =>
    colour && text !== '' ? `\u001b[${open}m${text}\u001b[${close}m` : text;
  return {
    bold: paint(1, 22),
    dim: paint(2, 22),
    red: paint(31, 39),
    yellow: paint(33, 39),
    cyan: paint(36, 39),
    green: paint(32, 39),
  };
}

/** A program's text as it may be shown: nothing in it can steer the terminal, and each unit stays one column. */
export function printable(text: string): string {
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g, (unit) =>
    unit === '\t' ? ' ' : '\u00b7',
  );
}
