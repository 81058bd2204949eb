import fc from 'fast-check';

/** A JSON Schema as the OpenAPI document gives it; only what our schemas use. */
export interface JsonSchema {
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly items?: JsonSchema;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly JsonSchema[];
  readonly additionalProperties?: JsonSchema | boolean;
  readonly pattern?: string;
}

/** Text as people and attackers type it. */
export const nastyText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 40 }),
  fc.constantFrom(
    '',
    '\u0000',
    '../../etc',
    "'; drop table children; --",
    '%',
    '{{}}',
    '١٢٣',
    '-0',
    '1e999',
    'NaN',
  ),
  fc.string({ minLength: 300, maxLength: 600 }),
);
const dates = fc.constantFrom(
  '2018-03-01',
  '2025-06-02',
  '2026-01-31',
  '2026-02-30',
  '0000-00-00',
  '9999-12-31',
);

/** Mostly fits the schema, now and then not: the wrong type, a missing field, one too many, a value at the edge. */
export function randomJson(schema: JsonSchema, depth = 0): fc.Arbitrary<unknown> {
  const fitting = fits(schema, depth);
  return fc.oneof(
    { weight: 12, arbitrary: fitting },
    { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 2 }) },
  );
}

function fits(schema: JsonSchema, depth: number): fc.Arbitrary<unknown> {
  if (schema.anyOf) return fc.oneof(...schema.anyOf.map((s) => randomJson(s, depth + 1)));
  if (schema.enum) return fc.constantFrom(...schema.enum);
  switch (Array.isArray(schema.type) ? schema.type[0] : schema.type) {
    case 'object': {
      const fields = Object.entries(schema.properties ?? {});
      return fc.record(Object.fromEntries(fields.map(([key, s]) => [key, randomJson(s, depth + 1)])), {
        requiredKeys: schema.required?.filter((k) => fields.some(([f]) => f === k)) ?? [],
      });
    }
    case 'array':
      return fc.array(randomJson(schema.items ?? {}, depth + 1), { maxLength: 4 });
    case 'integer':
      return fc.oneof(fc.integer({ min: -3, max: 400 }), fc.maxSafeInteger());
    case 'number':
      return fc.oneof(
        fc.integer({ min: -5, max: 300 }),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.constantFrom(0, -0, 5e-324, 1e308),
      );
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    default:
      return fc.oneof(dates, nastyText, fc.constantFrom('c0', 'foot_length', 'left', 'solid-afo', 'cast'));
  }
}
