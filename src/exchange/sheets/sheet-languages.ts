import { headingCandidates } from '../headings/heading-meaning.js';
import { type Language, languages } from '../headings/vocabulary.js';
import type { SheetTable } from './grid.js';

/** Languages whose words the headings have; the ones with most of them. */
export function sheetLanguages(table: Pick<SheetTable, 'headings'>): Language[] {
  const count = new Map<Language, number>(languages.map((l) => [l, 0]));
  for (const heading of table.headings) {
    const best = headingCandidates(heading)[0];
    if (!best || best.languages.length === languages.length) continue;
    const top = headingCandidates(heading).filter((c) => c.strength > best.strength - 0.03);
    for (const l of new Set(top.flatMap((c) => c.languages))) count.set(l, (count.get(l) ?? 0) + 1);
  }
  const most = Math.max(...count.values());
  if (most === 0) return [...languages];
  return languages.filter((l) => (count.get(l) ?? 0) >= most * 0.8);
}
