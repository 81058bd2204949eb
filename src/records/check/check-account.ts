import { refuse } from './refuse.js';

/** What a person may sign in with. */
export const userNamePattern = /^[a-zA-Z0-9._@-]{2,80}$/;

/** The name as it is stored. */
export function checkedUserName(given: string): string {
  if (!userNamePattern.test(given))
    refuse([
      {
        what: 'User',
        field: 'name',
        given: given.slice(0, 80),
        accepted: '2 to 80 letters, digits and . _ @ -',
      },
    ]);
  return given.toLowerCase();
}
