import { columnName } from '../records/about-field.js';

type Camel<S extends string> = S extends `${infer A}_${infer B}` ? `${A}${Capitalize<Camel<B>>}` : S;
type Snake<S extends string> = S extends `${infer A}${infer B}`
  ? `${A extends Lowercase<A> ? A : `_${Lowercase<A>}`}${Snake<B>}`
  : S;
type Shown<V> = V extends Date ? string : V;

/** A name is turned about once: a list has hundreds of rows. */
const kept = (turned: (name: string) => string) => {
  const known = new Map<string, string>();
  return (name: string): string => {
    const before = known.get(name) ?? turned(name);
    known.set(name, before);
    return before;
  };
};
export const inCamelCase = kept((name) => name.replace(/_./g, (at) => at[1].toUpperCase()));
const inSnakeCase = kept(columnName);

/** A row as it leaves the store: names in camelCase, moments as ISO text. Everything selected goes along. */
export const recordOf = <R extends object>(row: R) =>
  Object.fromEntries(
    Object.entries(row).map(([name, value]) => [
      inCamelCase(name),
      value instanceof Date ? value.toISOString() : value,
    ]),
  ) as { readonly [K in keyof R & string as Camel<K>]: Shown<R[K]> };

/** A record's fields as columns of its table. */
export const columnsOf = <R extends object>(record: R) =>
  Object.fromEntries(Object.entries(record).map(([name, value]) => [inSnakeCase(name), value])) as {
    [K in keyof R & string as Snake<K>]: R[K];
  };
