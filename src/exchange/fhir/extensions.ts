import { createHash } from 'node:crypto';
import type { Extension, Identifier } from 'fhir/r4.js';
import { columnName } from '../../records/about-field.js';
import { columns } from '../csv/columns.js';
import { OWN_EXTENSION, OWN_ID } from './codes.js';
import type { ReadExtension, ReadIdentifier } from './r4-schemas.js';

type Extended = { extension?: readonly ReadExtension[] };

/** One of our own fields that R4 has no element for; null and '' are left out. */
export function ownExtension(name: string, value: string | number | boolean | null): Extension[] {
  const url = OWN_EXTENSION + name;
  if (value === null || value === '') return [];
  if (typeof value === 'boolean') return [{ url, valueBoolean: value }];
  return [typeof value === 'number' ? { url, valueDecimal: value } : { url, valueString: value }];
}

/** Fields that R4 has no element for, by table: each an extension of its own name. */
export const withoutElement = {
  children: [
    'gestationWeeks',
    'affectedSide',
    'insensateSkin',
    'palliative',
    'walks',
    'siblingGroup',
    'prefersHolidays',
    'clinician',
    'contact',
    'status',
  ],
  measurements: ['technicalError', 'entered'],
  devices: ['castDate', 'footplate', 'hipAngleFrom', 'hipAngleTo', 'replaces'],
  events: ['measure', 'changeMm', 'adjustment', 'hipAngleLeft', 'hipAngleRight', 'endReason'],
  markers: ['sdYears'],
  skin: ['minutes', 'where', 'cannotWarn'],
} as const;
type Extending = keyof typeof withoutElement;

/** 'castDate' -> 'cast-date'. */
const extensionName = (field: string): string => columnName(field).replaceAll('_', '-');

export const ownExtensions = <T extends Extending>(
  table: T,
  record: Readonly<Partial<Record<(typeof withoutElement)[T][number], string | number | boolean | null>>>,
): Extension[] =>
  withoutElement[table].flatMap((field) =>
    ownExtension(extensionName(field), record[field as keyof typeof record] ?? null),
  );

/** The same as cells of the table; a tick that is not there is what an empty cell is. */
export function extensionCells(resource: Extended, table: Extending): Record<string, string> {
  const own = columns[table].filter(({ field }) => withoutElement[table].some((f) => f === field));
  return Object.fromEntries(
    own.map(({ name, field, whenEmpty }) => {
      const found = extensionOf(resource, extensionName(field));
      if (typeof whenEmpty === 'boolean') return [name, (found?.valueBoolean ?? whenEmpty) ? 'yes' : 'no'];
      return [name, String(found?.valueDecimal ?? found?.valueString ?? '')];
    }),
  );
}

/** A map of ours (extra columns, allowances by measure) as nested extensions: name with entries of key and value. */
export function mapExtension(
  name: string,
  map: Readonly<Partial<Record<string, string | number>>>,
): Extension[] {
  return Object.entries(map).map(([key, value]) => ({
    url: OWN_EXTENSION + name,
    extension: [
      { url: 'key', valueString: key },
      typeof value === 'number'
        ? { url: 'value', valueDecimal: value }
        : { url: 'value', valueString: value },
    ],
  }));
}

export function extensionMap<T extends string | number>(resource: Extended, name: string): Record<string, T> {
  const entries = (resource.extension ?? []).filter(({ url }) => url === OWN_EXTENSION + name);
  return Object.fromEntries(
    entries.map(({ extension = [] }) => {
      const value = extension.find(({ url }) => url === 'value');
      const key = extension.find(({ url }) => url === 'key')?.valueString ?? '';
      return [key, (value?.valueDecimal ?? value?.valueString ?? '') as T];
    }),
  );
}

export const extensionOf = (resource: Extended, name: string): ReadExtension | undefined =>
  resource.extension?.find(({ url }) => url === OWN_EXTENSION + name);

/** Our ids may hold any character; a FHIR id only letters, digits, '-' and '.', 64 at most. */
export function fhirId(ownId: string): string {
  if (/^[A-Za-z0-9\-.]{1,64}$/.test(ownId)) return ownId;
  return `h-${createHash('sha256').update(ownId).digest('hex').slice(0, 40)}`;
}

/** What a resource of ours is known by. */
export const identity = (kind: string, ownId: string): { id: string; identifier: Identifier[] } => ({
  id: fhirId(ownId),
  identifier: [{ system: OWN_ID + kind, value: ownId }],
});

/** Our own id where the resource carries it, else the resource's id. */
export function ownIdOf(
  kind: string,
  resource: { id?: string; identifier?: readonly ReadIdentifier[] },
): string {
  return resource.identifier?.find(({ system }) => system === OWN_ID + kind)?.value ?? resource.id ?? '';
}
