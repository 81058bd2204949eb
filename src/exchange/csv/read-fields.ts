import { fieldKind, fieldLimits, fieldOptions } from '../../records/field-limits.js';
import { type Column, columns, type RecordOf, type TableName } from './columns.js';
import type { RowReader } from './row-reader.js';

/** Fields of a record by their columns, each read as its kind; what cannot be is refused in the row. */
export function readFields<T extends TableName, K extends keyof RecordOf<T> & string>(
  row: RowReader,
  table: T,
  fields: readonly K[],
): Pick<RecordOf<T>, K> {
  const own = readers.get(table);
  return Object.fromEntries(fields.map((f) => [f, own?.get(f)?.(row)])) as Pick<RecordOf<T>, K>;
}

/** Words beside a field's own that a list may use for them, by column. */
const ALIASES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  sex: { m: 'male', boy: 'male', f: 'female', girl: 'female', u: 'unknown', x: 'unknown', other: 'unknown' },
  side: { l: 'left', r: 'right', bilateral: 'both' },
  affected_side: { l: 'left', r: 'right' },
};

function readerOf({ name, schema, whenEmpty }: Column): (row: RowReader) => unknown {
  const { min, max, maxLength } = fieldLimits(schema);
  switch (fieldKind(schema)) {
    case 'tick':
      return (row) => row.yesNo(name, whenEmpty === true);
    case 'choice':
      return choiceReader(name, fieldOptions(schema), whenEmpty);
    case 'number':
      return (row) => row.number(name, min, max) ?? whenEmpty;
    case 'date':
      return (row) => (whenEmpty === undefined ? (row.requiredDate(name) ?? '') : row.date(name));
    default:
      return (row) => row.upTo(name, maxLength) || whenEmpty;
  }
}

function choiceReader(name: string, options: readonly string[], whenEmpty: unknown) {
  const known = Object.entries(ALIASES[name] ?? {}).filter(([, word]) => options.includes(word));
  const aliases = Object.fromEntries(known);
  return (row: RowReader): unknown => {
    const before = row.refused.length;
    const word = row.oneOf(name, options, whenEmpty, aliases);
    return word === undefined && row.refused.length === before ? row.refuse(name, 'is missing') : word;
  };
}

/** Made once a column and asked of every row. */
const readers = new Map<TableName, ReadonlyMap<string, (row: RowReader) => unknown>>(
  Object.entries(columns).map(([table, own]) => [
    table as TableName,
    new Map(own.map((column) => [column.field, readerOf(column)])),
  ]),
);
