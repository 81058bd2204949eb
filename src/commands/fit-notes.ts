import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readTable } from '../exchange/csv/read-table.js';
import { fitNoteOdds, judgedNotes } from '../study/fit/fit-note-odds.js';
import { leaveWritersOut, noteCard } from '../study/fit/note-card.js';
import { modelsFolder } from './fit-model-folder.js';
import { type Terminal, terminal } from './terminal.js';

/** `doorpost fit notes`: the weights of notes as a whole, and their card, from models/notes/notes.csv. */
export function fitNotes(opts: { out?: string }, io: Terminal = terminal): void {
  const folder = opts.out ?? join(modelsFolder, 'notes');
  const path = join(modelsFolder, 'notes', 'notes.csv');
  const notes = judgedNotes(readTable(path, readFileSync(path)));
  const weights = fitNoteOdds(notes);
  writeFileSync(join(folder, 'weights.json'), `${JSON.stringify(weights)}\n`);
  writeFileSync(join(folder, 'model-card.md'), noteCard(weights, leaveWritersOut(notes)));
  io.out(join(folder, 'weights.json'));
}
