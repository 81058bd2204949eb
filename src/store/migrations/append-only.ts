/** What says that rows of a table are only ever added; the function stands with the ground state. */
export const appendOnly = (table: string): string => `
create trigger append_only before update or delete on ${table} for each row execute function append_only();
create trigger no_truncate before truncate on ${table} for each statement execute function append_only();
`;
