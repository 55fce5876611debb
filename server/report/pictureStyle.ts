/** Selector within the picture and its declarations. */
export type PictureRules = readonly (readonly [string, string])[];

const ground: PictureRules = [
  ['.ground', 'fill:#fafaf7;stroke:#c9c9c2'],
  ['text', 'font:10px system-ui,sans-serif;fill:#3a3a3a'],
  ['.small', 'font-size:9px'],
  ['.axis', 'fill:none;stroke:#b5b5ae;stroke-width:.7'],
  ['.ring', 'fill:none;stroke:#b5b5ae;stroke-width:.7'],
  ['.curve', 'fill:#1f6fb2;fill-opacity:.12;stroke:#1f6fb2;stroke-width:1.8;stroke-linejoin:round'],
  ['.point', 'fill:#fafaf7;stroke:#1f6fb2;stroke-width:1.4'],
  ['.mark', 'stroke:#b3470f;fill:#b3470f;stroke-width:1.6'],
  ['.marked', 'fill:#a03e0c'],
];

const darkGround: PictureRules = [
  ['.ground', 'fill:#23262b;stroke:#454a52'],
  ['text', 'fill:#d7d9dc'],
  ['.axis', 'stroke:#555b64'],
  ['.ring', 'stroke:#555b64'],
  ['.curve', 'fill:#6cb6f0;stroke:#6cb6f0'],
  ['.point', 'fill:#23262b;stroke:#6cb6f0'],
  ['.mark', 'stroke:#f2a065;fill:#f2a065'],
  ['.marked', 'fill:#f2a065'],
];

/**
 * The style sheet of a picture of this class, for a light and a dark theme, whichever the viewer tells an image; what the picture
 * adds to the common rules goes last. Rules inside an SVG reach the whole page that it is put into, so each names the picture.
 */
export function pictureSheet(name: string, light: PictureRules = [], dark: PictureRules = []): string {
  const scoped = (rules: PictureRules): string =>
    rules.map(([selector, body]) => `.${name} ${selector}{${body}}`).join('');
  return `${scoped([...ground, ...light])}@media(prefers-color-scheme:dark){${scoped([...darkGround, ...dark])}}`;
}

export interface PictureFrame {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** What the picture shows, in words. */
  readonly description: string;
  readonly sheet: string;
}

/** The SVG around these parts: its own ground, text alternatives, nothing from outside. */
export function framed(
  { name, width, height, title, description, sheet }: PictureFrame,
  parts: readonly string[],
): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" class="${name}" role="img">`,
    `<title>${inSvg(title)}</title>`,
    `<desc>${inSvg(description)}</desc>`,
    `<style>${sheet}</style>`,
    `<rect class="ground" width="${width}" height="${height}" rx="6"/>`,
    ...parts,
    '</svg>',
  ].join('');
}

/** Text as it may stand between tags. */
export function inSvg(text: string): string {
  return text.replace(/[&<>]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[sign] ?? sign);
}

/** The least of 1, 2, 5 times a power of ten that is not under this. */
export function niceStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  const factor = [1, 2, 5].find((candidate) => candidate * power >= least * (1 - 1e-9)) ?? 10;
  return factor * power;
}
