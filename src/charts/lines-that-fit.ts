/** Mean width of a character of a subtitle, px, in the chart's face; Cyrillic letters are wider. */
const CHARACTER_PX = 6.4;
const CYRILLIC_PX = 7.4;

/** Lines of a text that fit a width; a chart's title does not wrap by itself. */
export function linesThatFit(text: string, widthPx: number): string[] {
  const characters = Math.floor(widthPx / (/\p{Script=Cyrillic}/u.test(text) ? CYRILLIC_PX : CHARACTER_PX));
  const lines: string[] = [];
  for (const word of text.split(' ').filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < characters)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.map(inItsDirection);
}

/** A title is set larger and bold. */
export const titleLines = (text: string, widthPx: number): string[] => linesThatFit(text, 0.8 * widthPx);

const RIGHT_TO_LEFT = /\p{Script=Arabic}|\p{Script=Hebrew}/u;
/** A chart is drawn from left to right; a line of another script is set apart, or its full stop jumps to its start. */
const inItsDirection = (line: string): string => (RIGHT_TO_LEFT.test(line) ? `\u2067${line}\u2069` : line);
