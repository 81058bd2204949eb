/** Mean width of a character of a subtitle, px. */
const CHARACTER_PX = 6.4;

/** Lines of a text that fit a width; a chart's title does not wrap by itself. */
export function linesThatFit(text: string, widthPx: number): string[] {
  const characters = Math.floor(widthPx / CHARACTER_PX);
  const lines: string[] = [];
  for (const word of text.split(' ').filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < characters)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
