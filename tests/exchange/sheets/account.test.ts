import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type ParsedCaseload, parseCaseload } from '../../../src/exchange/parse-caseload.js';
import { readList } from './read-list.js';

const LISTS = fileURLToPath(new URL('./lists/', import.meta.url));
/** A word that no list of words has. */
const WORD = 'quorvex';
const WAYS: readonly ((cell: string) => string)[] = [
  (cell) => `${cell} ${WORD}`,
  (cell) => `${cell} (${WORD})`,
  (cell) => `${cell} + ${WORD}`,
];

/** Kept, told, asked, refused with its line, or part of a heading: what somebody can see of the word. */
function isSaid(parsed: ParsedCaseload, row: number): boolean {
  const { caseload, refused, notices, questions, doubtful, used, columns } = parsed;
  return (
    JSON.stringify([caseload, refused, notices, questions, doubtful, used, columns]).includes(WORD) ||
    refused.some((one) => one.row === row) ||
    notices.some((line) => line.includes(`row ${row}:`))
  );
}

interface Cell {
  readonly line: number;
  readonly at: number;
}
const separatorOf = (head: string, body: string): string =>
  head.startsWith('sheet ')
    ? '|'
    : [';', '\t', '|', ','].reduce((a, b) => (body.split(b).length > body.split(a).length ? b : a));

/** The filled cells of the lower half of a table: its upper lines may be titles and headings. */
function cellsOf(head: string, body: string): Cell[] {
  const lines = body.split('\n');
  const from = Math.ceil(lines.filter((line) => line !== '').length / 2);
  return lines.flatMap((text, line) => {
    if (line < from || text.includes('"') || text.startsWith('merge ')) return [];
    const cells = text.split(separatorOf(head, body));
    return cells.length < 3
      ? []
      : cells.flatMap((cell, at) => (/[\p{L}\d]/u.test(cell) ? [{ line, at }] : []));
  });
}

function planted(head: string, body: string, { line, at }: Cell, write: (cell: string) => string): string {
  const lines = body.split('\n');
  const separator = separatorOf(head, body);
  const cells = lines[line].split(separator);
  return lines.with(line, cells.with(at, write(cells[at])).join(separator)).join('\n');
}

// No cell of a clinic's file vanishes, nor a word of one: a word that nobody can understand is written into cells of every
// typed list, and what comes of it must show it.
describe('a word that nobody can understand is told, wherever it stands', () => {
  it.each(readdirSync(LISTS).sort())('%s', async (name) => {
    const unsaid: string[] = [];
    for (const [turn, write] of WAYS.entries()) {
      let row = 0;
      let written = '';
      const list = await readList(LISTS + name, (body, head) => {
        const cells = cellsOf(head, body);
        // One cell a way, of the last table that has some.
        const cell = cells[(turn * 7 + name.length) % Math.max(1, cells.length)];
        if (cell === undefined) return body;
        row = cell.line + 1;
        const text = planted(head, body, cell, write);
        written = `line ${row}: ${text.split('\n')[cell.line]}`;
        return text;
      });
      if (written === '') continue;
      const parsed = await parseCaseload([list.file], {
        today: '2026-11-25',
        takeProbable: !list.taken.includes('asks nothing'),
        answers: list.answers,
      });
      if (!isSaid(parsed, row)) unsaid.push(written);
    }
    expect(unsaid).toEqual([]);
  });
});
