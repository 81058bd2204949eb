import { measureIds, measures } from '../../records/measure.js';
import { foldText } from '../headings/fold-words.js';
import { fieldMeaning, type Meaning, meaningText } from '../headings/meaning.js';
import { cellDate } from './cell-date.js';
import { cellSize } from './cell-size.js';
import { valueFit } from './value-fit.js';

const DATES = (['visit.date', 'child.birth_date', 'device.cast_date', 'device.fitted_date'] as const).map(
  fieldMeaning,
);
const WORDS = (
  ['child.name', 'child.id', 'child.sex', 'child.conditions', 'device.family', 'side'] as const
).map(fieldMeaning);

/** What a column nobody's heading explains may hold by its values: what a clinic can choose from. */
export function valueChoices(cells: readonly string[], today: string, heading = ''): string[] {
  if (cells.length === 0) return [];
  const share = (test: (cell: string) => boolean) => cells.filter(test).length / cells.length;
  if (share((c) => cellDate(c, today) !== null && /\D/.test(c)) >= 0.8) return DATES.map(meaningText);
  const sizes = share((c) => cellSize(c) !== null) >= 0.8;
  const named = (sizes ? [fieldMeaning('child.id')] : WORDS).filter((m) => valueFit(m, cells, today) >= 0.8);
  return [...(sizes ? likelyFirst(readingChoices(cells, today), heading) : []), ...named.map(meaningText)];
}

/** 'Unterschenkellänge', 'Jambe', 'Onderbeenlengte': a height of the knee, which of them the clinic says. */
const LOWER_LEG = /unterschenkel|jambe|onderbeen|lower leg|shank|tibia|scheenbeen|pierna|gamba/;
const AT_KNEE = /^(?:knee_height|fibular_head_height)/;

const likelyFirst = (measured: readonly string[], heading: string): string[] => {
  const atKnee = LOWER_LEG.test(foldText(heading)) ? measured.filter((answer) => AT_KNEE.test(answer)) : [];
  return [...new Set([...atKnee, ...measured])];
};

function readingChoices(cells: readonly string[], today: string): string[] {
  return measureIds.flatMap((measure) => {
    const sides = measures[measure].sided ? (['left', 'right', 'row'] as const) : (['none'] as const);
    return sides
      .map((side): Meaning => ({ kind: 'reading', measure, side, unit: null, at: null }))
      .filter((m) => valueFit(m, cells, today) >= 0.9)
      .map(meaningText);
  });
}

/** Whether most of a column's cells are words: notes, that is, where the heading says nothing else. */
export const holdsNotes = (cells: readonly string[], today: string): boolean =>
  cells.length > 0 &&
  cells.filter((c) => /\p{L}{2}/u.test(c) && cellSize(c) === null && cellDate(c, today) === null).length >=
    cells.length * 0.6 &&
  cells.filter((c) => /\d/.test(c)).length <= cells.length * 0.3;

/** Words that only one field has: a column full of them holds that, whatever its heading. */
export function fieldByValues(cells: readonly string[], today: string, nobodyYet = false): Meaning | null {
  if (cells.length < 2) return null;
  const said = (['device.family', 'child.sex', 'side'] as const)
    .map(fieldMeaning)
    .find((m) => valueFit(m, cells, today) >= 0.9);
  if (said || !nobodyYet) return said ?? null;
  // A sheet of children without a column for them: different words of a name's length are the names.
  const name = fieldMeaning('child.name');
  const different = new Set(cells).size >= cells.length * 0.3 && cells.every((c) => c.length <= 40);
  return different && valueFit(name, cells, today) >= 0.9 ? name : null;
}
