/** A device says whose place it takes. */
export const deviceReplaces = `
update devices set data = data || '{"replaces": null}' where not data ? 'replaces';
`;
