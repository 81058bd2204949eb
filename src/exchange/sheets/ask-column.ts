import { foldText } from '../headings/fold-words.js';
import { meaningNamed, meaningText } from '../headings/meaning.js';
import { answerLabel } from '../headings/meaning-label.js';
import { type Column, columnName, columnQuestion } from './column.js';
import type { SheetTable } from './grid.js';
import type { Asker } from './questions.js';
import { uniqueKey } from './unique-key.js';
import { fieldByValues, holdsNotes, valueChoices } from './value-choices.js';

const WHO = /^child\.(?:id|name|first_name|last_name)$/;

/** The clinic's own answer for a column, else what is certain; a probable or unknown one is asked. */
export function askColumn(
  column: Column,
  values: readonly string[],
  taken: ReadonlySet<string | null>,
  day: (index: number) => string,
  table: SheetTable,
  asker: Asker,
  today: string,
): Column {
  const { cells, examples, certainty, meaning } = column;
  if (cells === 0) return { ...column, meaning: certainty === 'certain' ? meaning : null };
  const alike = numberedAlike(column, table, day);
  const name = alike.join('", "') || columnName(column);
  const id = alike.length > 0 ? `column:${pattern(column.heading)}` : columnQuestion(column);
  const own = columnQuestion(column);
  const known = asker.known(own, table.file) === null ? id : own;
  const said = asker.known(known, table.file);
  const named = said === null ? null : meaningNamed(said);
  if (named) {
    asker.used.set(known, said ?? '');
    return { ...column, meaning: named, certainty: 'certain' };
  }
  if (certainty === 'certain') return column;
  // Words under a heading nobody knows are remarks; without any heading they may be the children's names.
  const keptUnasked = column.heading !== '' && holdsNotes(values, today);
  const byValues =
    meaning === null
      ? fieldByValues(values, today, column.heading !== '' && ![...taken].some((key) => WHO.test(key ?? '')))
      : null;
  const likeliest = meaning ?? (byValues !== null && !taken.has(uniqueKey(byValues)) ? byValues : null);
  const suggested = likeliest !== null ? meaningText(likeliest) : keptUnasked ? 'keep' : null;
  const likely = column.candidates.map((c) => meaningText(c.meaning));
  const possible = meaning === null ? valueChoices(values, today) : [];
  const choices = [
    ...new Set([
      ...(suggested === null ? [] : [suggested]),
      ...likely,
      'keep',
      ...(keptUnasked ? ['remark', 'remark skin'] : []),
      ...possible,
    ]),
  ].map((answer) => ({
    answer,
    label: answerLabel(answer),
  }));
  const answer = asker.ask({
    id,
    file: table.file,
    asks:
      likeliest === null || suggested === null
        ? `What ${alike.length > 0 ? 'do the columns' : 'does the column'} "${name}" hold?`
        : `${alike.length > 0 ? 'Do the columns' : 'Does the column'} "${name}" hold ${answerLabel(suggested)}?`,
    examples,
    cells,
    suggested,
    choices,
  });
  const chosen = answer === null ? null : meaningNamed(answer);
  return { ...column, meaning: chosen, certainty: chosen === null ? certainty : 'certain' };
}

const pattern = (heading: string): string => foldText(heading).replace(/\d+/g, '#');

/**
 * Columns whose headings differ by a number or a date only and that are of different days, 'L/R 1' and 'L/R 2': one
 * question asks for them all. Two of one day, 'Diag 1' and 'Diag 2', are different sizes.
 */
function numberedAlike({ heading }: Column, table: SheetTable, day: (index: number) => string): string[] {
  const own = pattern(heading);
  if (!/\p{L}/u.test(own) || !own.includes('#')) return [];
  const alike = table.headings.flatMap((other, index) => (pattern(other) === own ? [index] : []));
  const days = new Set(alike.map(day));
  return alike.length > 1 && days.size === alike.length ? alike.map((index) => table.headings[index]) : [];
}
