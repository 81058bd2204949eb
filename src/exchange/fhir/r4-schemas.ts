import { z } from 'zod';

/**
 * The part of FHIR R4 that is read, as its resource pages define it (hl7.org/fhir/R4; written from memory). What is not
 * named here is dropped, so that nothing unchecked goes further.
 */
const text = z.string();
const date = z.string().describe('a date as 2024-03-17');
/** What may be left out, as nearly everything may. */
const some = <F extends z.ZodRawShape>(fields: F) => z.object(fields).partial();
const concept = some({
  coding: z.array(some({ system: text, code: text, display: text })),
  text,
});
const reference = some({ reference: text, display: text });
const identifier = some({ system: text, value: text });
const quantity = some({ value: z.number(), unit: text, code: text });
const period = some({ start: date });
const value = some({ valueString: text, valueDecimal: z.number(), valueBoolean: z.boolean() });
const extension = value.extend({
  url: text,
  extension: z.array(value.extend({ url: text })).optional(),
});
const resource = <T extends string, F extends z.ZodRawShape>(type: T, fields: F) =>
  some({ id: text, identifier: z.array(identifier), extension: z.array(extension), ...fields }).extend({
    resourceType: z.literal(type),
  });

const schemas = {
  Patient: resource('Patient', {
    active: z.boolean(),
    // A list of texts may hold null where only an extension is given.
    name: z.array(some({ text, family: text, given: z.array(text.nullable()) })),
    telecom: z.array(some({ value: text })),
    gender: text,
    birthDate: date,
    deceasedBoolean: z.boolean(),
    deceasedDateTime: date,
    communication: z.array(z.object({ language: concept })),
  }),
  Observation: resource('Observation', {
    status: text,
    code: concept,
    subject: reference,
    device: reference,
    effectiveDateTime: date,
    effectivePeriod: period,
    bodySite: concept,
    method: concept,
    performer: z.array(reference),
    valueQuantity: quantity,
    valueString: text,
    note: z.array(some({ text })),
  }),
  Condition: resource('Condition', { subject: reference, code: concept }),
  AllergyIntolerance: resource('AllergyIntolerance', { patient: reference, code: concept }),
  Device: resource('Device', { status: text, type: concept, patient: reference, manufactureDate: date }),
  DeviceUseStatement: resource('DeviceUseStatement', {
    status: text,
    subject: reference,
    device: reference,
    bodySite: concept,
    timingPeriod: period,
    timingDateTime: date,
  }),
  Task: resource('Task', {
    status: text,
    focus: reference,
    code: concept,
    output: z.array(some({ type: concept, valueDate: date })),
  }),
} as const;

export type ReadType = keyof typeof schemas;
export type Read<T extends ReadType> = z.output<(typeof schemas)[T]>;
export type ReadResource = { [T in ReadType]: Read<T> }[ReadType];
export type Concept = z.output<typeof concept>;
export type ReadReference = z.output<typeof reference>;
export type ReadQuantity = z.output<typeof quantity>;
export type ReadExtension = z.output<typeof extension>;
export type ReadIdentifier = z.output<typeof identifier>;

export const isReadType = (type: string): type is ReadType => Object.hasOwn(schemas, type);

/** Where a resource is not what FHIR R4 says it is. */
export interface Misfit {
  readonly path: string;
  readonly why: string;
}

/** A resource of a type that is read, checked; or the first places where it is not FHIR R4. */
export function checkResource(type: ReadType, value: unknown): ReadResource | readonly Misfit[] {
  const read = schemas[type].safeParse(value);
  if (read.success) return read.data;
  return read.error.issues
    .slice(0, 5)
    .map(({ path, message }) => ({ path: path.map(String).join('.'), why: message }));
}
