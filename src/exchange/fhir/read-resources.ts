import type { Bundle, FhirResource } from 'fhir/r4.js';
import { DoorpostError } from '../../errors.js';

const ACCEPTED = 'a FHIR R4 Bundle, one resource, a list of resources, or NDJSON with one resource a line';

type Located = FhirResource & { fullUrl?: string };

/** The resources of a file in their order; those of a bundle carry the entry's `fullUrl`. */
export function readResources(file: string, bytes: Uint8Array): Located[] {
  const text = new TextDecoder('utf-8').decode(bytes);
  const whole = json(text);
  const values = whole === undefined ? lines(file, text) : [whole].flat();
  return values.flatMap((value, index): Located[] => {
    const resource = value as FhirResource | null;
    if (typeof resource?.resourceType !== 'string') {
      throw new DoorpostError('invalid-file', `${file} item ${index + 1} is not a FHIR resource`, {
        file,
        row: index + 1,
        field: 'resourceType',
        accepted: ACCEPTED,
      });
    }
    if (resource.resourceType !== 'Bundle') return [resource];
    return ((resource as Bundle).entry ?? []).flatMap(({ fullUrl, resource: inner }): Located[] =>
      inner === undefined ? [] : [{ ...inner, fullUrl }],
    );
  });
}

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
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
