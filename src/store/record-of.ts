type Camel<S extends string> = S extends `${infer A}_${infer B}` ? `${A}${Capitalize<Camel<B>>}` : S;
type Shown<V> = V extends Date ? string : V;

/** A row as it leaves the store: names in camelCase, moments as ISO text. Everything selected goes along. */
export const recordOf = <R extends object>(row: R) =>
  Object.fromEntries(
    Object.entries(row).map(([name, value]) => [
      name.replace(/_./g, (at) => at[1].toUpperCase()),
      value instanceof Date ? value.toISOString() : value,
    ]),
  ) as { readonly [K in keyof R & string as Camel<K>]: Shown<R[K]> };
