import { DoorpostError } from '../../errors.js';
import type { RefusedRow } from '../refused-row.js';
import { checkResource, isReadType, type ReadResource } from './r4-schemas.js';

const ACCEPTED = 'a FHIR R4 Bundle, one resource, a list of resources, or NDJSON with one resource a line';

/** A resource with its place in the file, from 1, and the address its bundle gives it. */
export interface Located {
  readonly row: number;
  readonly fullUrl: string | null;
  readonly resource: ReadResource;
}

export interface Resources {
  readonly resources: readonly Located[];
  /** Places that hold no resource, or one that is not as FHIR R4 says. */
  readonly refused: readonly RefusedRow[];
  /** How many there are of each type that is not read. */
  readonly passedOver: ReadonlyMap<string, number>;
}

/** The resources of a file in their order, each checked before anything reads it; those of a bundle entry by entry. */
export function readResources(file: string, bytes: Uint8Array): Resources {
  const text = new TextDecoder('utf-8').decode(bytes);
  const whole = json(text);
  const values = whole === undefined ? lines(file, text) : [whole].flat();
  const resources: Located[] = [];
  const refused: RefusedRow[] = [];
  const passedOver = new Map<string, number>();
  let row = 0;
  const refuse = (column: string, given: unknown, why: string, accepted = ACCEPTED) =>
    refused.push({ file, row, column, given: shown(given), why, accepted });
  const take = (value: unknown, fullUrl: unknown) => {
    row++;
    const type = typeOf(value);
    if (type === null) return refuse('resourceType', value, 'is not a FHIR resource');
    if (!isReadType(type)) return passedOver.set(type, (passedOver.get(type) ?? 0) + 1);
    const checked = checkResource(type, value);
    if ('resourceType' in checked)
      return resources.push({
        row,
        fullUrl: typeof fullUrl === 'string' ? fullUrl : null,
        resource: checked,
      });
    for (const { path, why } of checked)
      refuse(`${type}.${path}`, at(value, path), `is not FHIR R4: ${why}`, `what FHIR R4 says of ${type}`);
  };
  for (const [index, value] of values.entries()) {
    const type = typeOf(value);
    if (type === null)
      throw new DoorpostError('invalid-file', `${file} item ${index + 1} is not a FHIR resource`, {
        file,
        row: index + 1,
        field: 'resourceType',
        accepted: ACCEPTED,
      });
    if (type !== 'Bundle') {
      take(value, null);
      continue;
    }
    const inside = insideBundle(value);
    if (inside !== null) {
      for (const { resource, fullUrl } of inside) take(resource, fullUrl);
      continue;
    }
    row++;
    refuse('Bundle.entry', (value as { entry?: unknown }).entry, 'is not a list');
  }
  return { resources, refused, passedOver };
}

/** The entries of a bundle that hold a resource, not only a request or an answer; null where they are no list. */
function insideBundle(bundle: unknown): Readonly<Record<string, unknown>>[] | null {
  const { entry = [] } = bundle as { entry?: unknown };
  if (!Array.isArray(entry)) return null;
  return entry
    .map((item: unknown) => (isObject(item) ? item : { resource: item }))
    .filter(({ resource }) => resource !== undefined);
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function typeOf(value: unknown): string | null {
  const type = isObject(value) ? value.resourceType : null;
  return typeof type === 'string' && /^[A-Za-z]{1,64}$/.test(type) ? type : null;
}

/** What stands at a place of a resource, as far as it can be followed. */
const at = (value: unknown, path: string): unknown =>
  path
    .split('.')
    .reduce<unknown>(
      (inside, key) =>
        typeof inside === 'object' && inside !== null && Object.hasOwn(inside, key)
          ? (inside as Record<string, unknown>)[key]
          : undefined,
      value,
    );

const shown = (value: unknown): string => (JSON.stringify(value) ?? '').slice(0, 60);

function lines(file: string, text: string): unknown[] {
  return text.split(/\r?\n/).flatMap((line, index) => {
    if (line.trim() === '') return [];
    const value = json(line);
    if (value !== undefined) return [value];
    throw new DoorpostError('invalid-file', `${file} line ${index + 1} is not JSON`, {
      file,
      row: index + 1,
      accepted: ACCEPTED,
    });
  });
}

function json(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return undefined;
  }
}
