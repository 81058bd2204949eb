/**
 * The columns doorpost reads, table by table: what `doorpost columns` prints and what a refusal quotes.
 * A heading is matched without regard to case, spaces and punctuation; columns named here are read,
 * every other column is kept with its row and written back.
 */
import type { z } from 'zod';
import { growthHormoneColumns } from '../../forecast/record-until.js';
import { type AboutField, acceptedInFile, columnName, isNeeded } from '../../records/about-field.js';
import type { Caseload, CaseloadPart } from '../../records/caseload.js';
import { childFields, childNumber } from '../../records/child-fields.js';
import { deviceEventRecord, deviceRecord, stageIds, workshopJobRecord } from '../../records/device.js';
import {
  deviceFields,
  eventFields,
  jobFields,
  markerFields,
  measurementFields,
  skinFields,
} from '../../records/record-fields.js';
import { childRecord, isoDateText, markerRecord, measurementRecord } from '../../records/records.js';
import { skinCheckFields } from '../../records/skin-check.js';

export const tableNames = [
  'children',
  'measurements',
  'devices',
  'events',
  'markers',
  'jobs',
  'skin',
] as const;
export type TableName = (typeof tableNames)[number];
/** What a row of a table is. */
export type RecordOf<T extends TableName> = Caseload[T extends CaseloadPart ? T : 'skinChecks'][number];

export interface Column {
  readonly name: string;
  /** The record's field that stands in it. */
  readonly field: string;
  /** What the field may be. */
  readonly schema: z.ZodType;
  /** What an empty cell is read as; undefined where it must not be empty. */
  readonly whenEmpty: unknown;
  readonly required: boolean;
  /** What is accepted, as a refusal quotes it. */
  readonly accepted: string;
  readonly aliases: readonly string[];
}

/** A column a field, of what is said of each and of its schema. */
const columnsOf = (
  fields: Readonly<Record<string, AboutField>>,
  schemas: Readonly<Record<string, z.ZodType>>,
): readonly Column[] =>
  Object.entries(fields).map(([field, about]) => ({
    name: columnName(field),
    field,
    schema: schemas[field],
    whenEmpty: about.otherwise ?? schemas[field].safeParse(undefined).data,
    required: isNeeded(schemas[field], about),
    accepted: acceptedInFile(schemas[field], about),
    aliases: about.aliases ?? [],
  }));

const { extra: _ownColumns, ...childSchemas } = childRecord.shape;
const childColumns = Object.fromEntries(
  Object.keys(childSchemas).map((f) => [f, f === 'id' ? childNumber : childFields[f as 'name']]),
);
/** A stage is done on a day, or not yet. */
const stages = Object.fromEntries(stageIds.map((stage) => [stage, isoDateText.nullable().default(null)]));

export const columns: Readonly<Record<TableName, readonly Column[]>> = {
  children: columnsOf(childColumns, childSchemas),
  measurements: columnsOf(measurementFields, {
    ...measurementRecord.shape,
    unit: measurementRecord.shape.entered,
  }),
  devices: columnsOf(deviceFields, deviceRecord.shape),
  events: columnsOf(eventFields, deviceEventRecord.shape),
  markers: columnsOf(markerFields, markerRecord.shape),
  skin: columnsOf(skinFields, skinCheckFields.shape),
  jobs: columnsOf(jobFields, { ...workshopJobRecord.shape, ...stages }),
};

/** Columns whose name carries a measure and a unit; shown under the table. */
export const patternColumns: Readonly<Partial<Record<TableName, readonly string[]>>> = {
  children: [
    `${Object.values(growthHormoneColumns).join(', ')}: days on which the treatment began and ended,`,
    'as 2024-03-17; the end is empty while it goes on.',
  ],
  measurements: [
    'Or one row a visit, with a column a measure: <measure>[_left|_right][_unit], for example',
    'foot_length_left_cm, foot_length_right_cm, stature_cm, weight_kg; an empty cell is no reading.',
  ],
  devices: [
    'allowance_<measure>_mm: growth since cast the device takes, in place of the family default;',
    'limit_<measure>_mm: largest size it takes, where the maker states it;',
    'extension_<measure>_mm: extension left in the side bars when delivered. Also in cm or inch.',
  ],
};

/** 'Foot length (cm)' -> 'foot_length_cm': how headings and words of a list are compared. */
export function plainWord(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '_')
    .replace(/^_+|_+$/g, '');
}

/** The column of a table that a heading means, or null for one doorpost does not read. */
export function columnOf(table: TableName, heading: string): Column | null {
  const word = plainWord(heading);
  return (
    columns[table].find((column) => column.name === word) ??
    columns[table].find((column) => column.aliases.includes(word)) ??
    null
  );
}
