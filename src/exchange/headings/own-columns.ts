import { growthHormoneColumns } from '../../forecast/record-until.js';
import { columns, type TableName } from '../csv/columns.js';
import type { Meaning } from './meaning.js';
import { type FieldId, fieldIds } from './vocabulary.js';

const own = (field: FieldId): Meaning => ({ kind: 'field', field, side: null, family: null });
const isField = (id: string): id is FieldId => (fieldIds as readonly string[]).includes(id);

/** doorpost's own column names as meanings, for the three tables that a clinic may also keep in its own shape. */
const MEANINGS: Readonly<Partial<Record<TableName, Readonly<Record<string, FieldId>>>>> = {
  children: Object.fromEntries(
    columns.children.flatMap(({ name }) =>
      isField(`child.${name}`) ? [[name, `child.${name}` as FieldId]] : [],
    ),
  ),
  measurements: {
    id: 'long.id',
    child_id: 'child.id',
    date: 'visit.date',
    measure: 'long.measure',
    side: 'side',
    value: 'long.value',
    unit: 'long.unit',
    method: 'visit.method',
    observer: 'visit.observer',
    technical_error: 'long.technical_error',
    entered: 'long.entered',
  },
  devices: {
    id: 'device.id',
    child_id: 'child.id',
    family: 'device.family',
    side: 'side',
    cast_date: 'device.cast_date',
    fitted_date: 'device.fitted_date',
    status: 'device.status',
    footplate: 'device.footplate',
    replaces: 'device.replaces',
  },
};

/** They go through under their name, and are read with the record. */
const KEPT: readonly string[] = Object.values(growthHormoneColumns);

/**
 * What the columns of a table under doorpost's own names hold, by index: they are certain, whichever optional ones are
 * missing and whatever stands beside them. A clinic types 'Child ID', not child_id: the underscore is the mark of a
 * table made for doorpost. Empty for any other table.
 */
export function ownMeanings(headings: readonly string[]): ReadonlyMap<number, Meaning> {
  const names = headings.map((h) => h.trim().toLowerCase());
  const fitting = (Object.keys(MEANINGS) as TableName[]).filter((table) => {
    const needed = columns[table].filter((c) => c.required).map((c) => c.name);
    return needed.every((name) => names.includes(name)) && needed.some((name) => name.includes('_'));
  });
  // devices also have a child_id; a table that is both is read by the one that asks for more.
  const table = fitting.includes('devices') ? 'devices' : fitting[0];
  const meanings = table === undefined ? {} : (MEANINGS[table] ?? {});
  return new Map(
    names.flatMap((name, index) => {
      if (Object.hasOwn(meanings, name)) return [[index, own(meanings[name])] as const];
      return table !== undefined && KEPT.includes(name) ? [[index, { kind: 'keep' }] as const] : [];
    }),
  );
}
