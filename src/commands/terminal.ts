/** Where a command writes: results to `out` (a program may read them), progress and remarks to `err`. */
export interface Terminal {
  out(text: string): void;
  err(text: string): void;
  /** A line that replaces itself on a screen and is left out of a log file. */
  progress(text: string): void;
}

// Whoever reads may have read enough (`doorpost recall ... | head`): an end, not a failure.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit();
  });

export const terminal: Terminal = {
  out: (text) => void process.stdout.write(`${text}\n`),
  err: (text) => {
    clearLine();
    process.stderr.write(`${text}\n`);
  },
  progress: (text) => {
    if (!process.stderr.isTTY) return;
    clearLine();
    process.stderr.write(text);
  },
};

function clearLine(): void {
  if (process.stderr.isTTY) process.stderr.write('\r\u001b[2K');
}

/** Lines up cells under headings; numbers are the caller's to format. Empty columns are left out. */
export function textTable(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const shown = headings.map((_, i) => i).filter((i) => rows.some((row) => row[i] !== ''));
  const width = shown.map((i) => Math.max(headings[i].length, ...rows.map((row) => row[i].length)));
  const line = (cells: readonly string[]) =>
    shown
      .map((i, at) => cells[i].padEnd(width[at]))
      .join('  ')
      .trimEnd();
  return [
    line(headings),
    line(width.length ? headings.map((h) => '-'.repeat(h.length)) : []),
    ...rows.map(line),
  ].join('\n');
}

/** Breaks text at spaces (never at the one between a number and its unit) so that no line is longer than `width`; every line starts with `indent`. */
export function wrap(text: string, width = 100, indent = ''): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[ \n]+/)) {
    if (line !== '' && indent.length + line.length + 1 + word.length > width) {
      lines.push(indent + line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, indent + line].join('\n');
}
