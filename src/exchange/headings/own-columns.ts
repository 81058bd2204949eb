import { growthHormoneColumns } from '../../forecast/record-until.js';
import { columns } from '../csv/columns.js';
import { fieldMeaning, type Meaning } from './meaning.js';
import { type FieldId, fieldIds } from './vocabulary.js';

const isFieldId = (id: string): id is FieldId => (fieldIds as readonly string[]).includes(id);

/** What a clinic may also keep in its own shape, by the record its columns are of. */
const RECORDS = { children: 'child', measurements: 'long', devices: 'device' } as const;

/** The field a column of one of these tables is, by its name: of the record, else of its visit, else of neither. */
const fieldOf = (table: keyof typeof RECORDS, name: string): FieldId | null =>
  name === 'child_id'
    ? 'child.id'
    : ([`${RECORDS[table]}.${name}`, `visit.${name}`, name].find(isFieldId) ?? null);

/** They go through under their name, and are read with the record. */
const KEPT: readonly string[] = Object.values(growthHormoneColumns);

/**
 * What the columns of a table under doorpost's own names hold, by index: they are certain, whichever optional ones are
 * missing and whatever stands beside them. A clinic types 'Child ID', not child_id: the underscore is the mark of a
 * table made for doorpost. Empty for any other table.
 */
export function ownMeanings(headings: readonly string[]): ReadonlyMap<number, Meaning> {
  const names = headings.map((h) => h.trim().toLowerCase());
  const fitting = (Object.keys(RECORDS) as (keyof typeof RECORDS)[]).filter((table) => {
    const needed = columns[table].filter((c) => c.required).map((c) => c.name);
    return needed.every((name) => names.includes(name)) && needed.some((name) => name.includes('_'));
  });
  // devices also have a child_id; a table that is both is read by the one that asks for more.
  const table = fitting.includes('devices') ? 'devices' : fitting[0];
  if (table === undefined) return new Map();
  return new Map(
    names.flatMap((name, index): [number, Meaning][] => {
      const field = columns[table].some((c) => c.name === name) ? fieldOf(table, name) : null;
      if (field !== null) return [[index, fieldMeaning(field)]];
      return KEPT.includes(name) ? [[index, { kind: 'keep' }]] : [];
    }),
  );
}
