/** Lines of at most `width` characters, broken at blanks; a longer word stands alone. Line breaks in the text stay. */
export function wrap(text: string, width: number): string[] {
  return text.split(/\r?\n/).flatMap((paragraph) => wrapParagraph(paragraph, width));
}

function wrapParagraph(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

/** The text wrapped with every line after `indent` blanks, ending in a line break. */
export function wrapIndented(text: string, width: number, indent: number): string {
  const margin = ' '.repeat(indent);
  return wrap(text, Math.max(20, width - indent))
    .map((line) => `${margin}${line}\n`)
    .join('');
}
