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
  const shipped: ReturnType<typeof fitNoteOdds> = JSON.parse(read('weights.json').toString());
  const again = fitNoteOdds(notes);
  for (const part of ['harm', 'kinds'] as const) {
    expect(again[part].features).toBe(shipped[part].features);
    expect(Object.keys(again[part].of)).toEqual(Object.keys(shipped[part].of));
    for (const [answer, { weights }] of Object.entries(again[part].of)) {
      const furthest = Math.max(...weights.map((w, i) => Math.abs(w - shipped[part].of[answer].weights[i])));
      expect(furthest).toBeLessThan(0.011);
    }
  }
  expect(noteCard(shipped, leaveWritersOut(notes))).toBe(read('model-card.md').toString());
  // Fifteen seconds alone; a busy machine takes four times as long.
}, 180_000);

it('a word that stands in harmful notes only weighs for harm, one in harmless ones against', () => {
  const typed = (harm: boolean, note: string) => ({
    writer: 'a',
    finds: harm ? ('skin-open' as const) : null,
    note,
  });
  const { features, of: answers } = fitNoteOdds([
    typed(true, 'heel raw'),
    typed(true, 'toes raw'),
    typed(false, 'heel well'),
    typed(false, 'toes well'),
  ]).harm;
  const of = (word: string) => answers.harm.weights[features.split('|').indexOf(word)];
  expect(of('raw')).toBeGreaterThan(0.1);
  expect(of('well')).toBeLessThan(-0.1);
  expect(Math.abs(of('heel'))).toBeLessThan(0.05);
});
