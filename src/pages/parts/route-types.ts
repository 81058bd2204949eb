/** Fields of a form or a query as they come: text, or absent. */
export type Fields = Readonly<Record<string, string | undefined>>;
