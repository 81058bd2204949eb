type Schema = Record<string, unknown> & { readonly properties?: Record<string, Schema> };
interface Operation {
  readonly parameters?: readonly { readonly in: string; readonly name: string; readonly schema: Schema }[];
  readonly requestBody?: { readonly content?: Record<string, { readonly schema?: Schema }> };
}

/** What a request can carry without a bound, place by place, in an OpenAPI 3.1 document. */
export function unbounded(document: { readonly paths: Record<string, Record<string, unknown>> }): string[] {
  const found: string[] = [];
  for (const [path, methods] of Object.entries(document.paths))
    for (const [method, operation] of Object.entries(methods as Record<string, Operation>)) {
      for (const p of operation.parameters ?? [])
        look(p.schema, `${method} ${path} ${p.in} ${p.name}`, found);
      for (const { schema } of Object.values(operation.requestBody?.content ?? {}))
        if (schema) look(schema, `${method} ${path}`, found);
    }
  return found;
}

export const bodyOf = (schema: unknown) => ({ content: { 'application/json': { schema } } });

function look(schema: Schema, where: string, found: string[]): void {
  const choices = [schema.anyOf, schema.oneOf, schema.allOf].flatMap(
    (c) => (c as Schema[] | undefined) ?? [],
  );
  for (const choice of choices) look(choice, where, found);
  if (choices.length > 0 || schema.enum || 'const' in schema) return;
  const types = [schema.type].flat();
  const lacks = (...bounds: string[]) => bounds.every((bound) => schema[bound] === undefined);
  if (schema.type === undefined) found.push(`${where}: anything`);
  if (types.includes('string') && lacks('maxLength')) found.push(`${where}: text of any length`);
  if (types.includes('number') || types.includes('integer')) {
    if (lacks('maximum', 'exclusiveMaximum')) found.push(`${where}: no largest number`);
    if (lacks('minimum', 'exclusiveMinimum')) found.push(`${where}: no smallest number`);
  }
  if (types.includes('array')) {
    if (lacks('maxItems')) found.push(`${where}: a list of any length`);
    look(schema.items as Schema, `${where}[]`, found);
  }
  for (const [key, inner] of Object.entries(schema.properties ?? {})) look(inner, `${where}.${key}`, found);
  const more = schema.additionalProperties;
  if (typeof more !== 'object' || more === null) return;
  const keys = schema.propertyNames as Schema | undefined;
  if (lacks('maxProperties') && !keys?.enum) found.push(`${where}: any number of fields`);
  look(more as Schema, `${where}.*`, found);
}
