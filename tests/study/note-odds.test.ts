import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { readTable } from '../../src/exchange/csv/read-table.js';
import { fitNoteOdds, judgedNotes } from '../../src/study/fit/fit-note-odds.js';
import { leaveWritersOut, noteCard } from '../../src/study/fit/note-card.js';

const read = (file: string) =>
  readFileSync(fileURLToPath(new URL(`../../models/notes/${file}`, import.meta.url)));
const notes = judgedNotes(readTable('notes.csv', read('notes.csv')));

it('the shipped weights of notes are what their notes give, and the card says what leaving writers out gave', () => {
  const shipped = JSON.parse(read('weights.json').toString());
  const again = fitNoteOdds(notes);
  expect(again.features).toBe(shipped.features);
  const furthest = Math.max(...again.weights.map((w, i) => Math.abs(w - shipped.weights[i])));
  expect(furthest).toBeLessThan(0.011);
  expect(noteCard(shipped, leaveWritersOut(notes))).toBe(read('model-card.md').toString());
});

it('a word that stands in harmful notes only weighs for harm, one in harmless ones against', () => {
  const typed = (harm: boolean, note: string) => ({ writer: 'a', harm, note });
  const { features, weights } = fitNoteOdds([
    typed(true, 'heel raw'),
    typed(true, 'toes raw'),
    typed(false, 'heel well'),
    typed(false, 'toes well'),
  ]);
  const of = (word: string) => weights[features.split('|').indexOf(word)];
  expect(of('raw')).toBeGreaterThan(0.1);
  expect(of('well')).toBeLessThan(-0.1);
  expect(Math.abs(of('heel'))).toBeLessThan(0.05);
});
