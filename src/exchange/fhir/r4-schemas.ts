import { z } from 'zod';

/**
 * The part of FHIR R4 that is read, as its resource pages define it (hl7.org/fhir/R4; written from memory). What is not
 * named here is dropped, so that nothing unchecked goes further.
 */
const text = z.string();
const date = z.string().describe('a date as 2024-03-17');
const coding = z.object({ system: text.optional(), code: text.optional(), display: text.optional() });
const concept = z.object({ coding: z.array(coding).optional(), text: text.optional() });
const identifier = z.object({ system: text.optional(), value: text.optional() });
const reference = z.object({ reference: text.optional(), display: text.optional() });
const quantity = z.object({ value: z.number().optional(), unit: text.optional(), code: text.optional() });
const period = z.object({ start: date.optional() });
const value = {
  valueString: text.optional(),
  valueDecimal: z.number().optional(),
  valueBoolean: z.boolean().optional(),
};
const extension = z.object({
  url: text,
  ...value,
  extension: z.array(z.object({ url: text, ...value })).optional(),
});
const resource = {
  id: text.optional(),
  identifier: z.array(identifier).optional(),
  extension: z.array(extension).optional(),
};

const schemas = {
  Patient: z.object({
    resourceType: z.literal('Patient'),
    ...resource,
    active: z.boolean().optional(),
    name: z
      .array(
        z.object({
          text: text.optional(),
          family: text.optional(),
          // A list of texts may hold null where only an extension is given.
          given: z.array(text.nullable()).optional(),
        }),
      )
      .optional(),
    telecom: z.array(z.object({ value: text.optional() })).optional(),
    gender: text.optional(),
    birthDate: date.optional(),
    deceasedBoolean: z.boolean().optional(),
    deceasedDateTime: date.optional(),
    communication: z.array(z.object({ language: concept })).optional(),
  }),
  Observation: z.object({
    resourceType: z.literal('Observation'),
    ...resource,
    status: text.optional(),
    code: concept.optional(),
    subject: reference.optional(),
    device: reference.optional(),
    effectiveDateTime: date.optional(),
    effectivePeriod: period.optional(),
    bodySite: concept.optional(),
    method: concept.optional(),
    performer: z.array(reference).optional(),
    valueQuantity: quantity.optional(),
    valueString: text.optional(),
    note: z.array(z.object({ text: text.optional() })).optional(),
  }),
  Condition: z.object({
    resourceType: z.literal('Condition'),
    ...resource,
    subject: reference.optional(),
    code: concept.optional(),
  }),
  AllergyIntolerance: z.object({
    resourceType: z.literal('AllergyIntolerance'),
    ...resource,
    patient: reference.optional(),
    code: concept.optional(),
  }),
  Device: z.object({
    resourceType: z.literal('Device'),
    ...resource,
    status: text.optional(),
    type: concept.optional(),
    patient: reference.optional(),
    manufactureDate: date.optional(),
  }),
  DeviceUseStatement: z.object({
    resourceType: z.literal('DeviceUseStatement'),
    ...resource,
    status: text.optional(),
    subject: reference.optional(),
    device: reference.optional(),
    bodySite: concept.optional(),
    timingPeriod: period.optional(),
    timingDateTime: date.optional(),
  }),
  Task: z.object({
    resourceType: z.literal('Task'),
    ...resource,
    status: text.optional(),
    focus: reference.optional(),
    code: concept.optional(),
    output: z.array(z.object({ type: concept.optional(), valueDate: date.optional() })).optional(),
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
