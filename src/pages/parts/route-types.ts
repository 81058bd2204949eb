/** Fields of a form or a query as they come: text, or absent. */
export type Form = Readonly<Record<string, string | undefined>>;
