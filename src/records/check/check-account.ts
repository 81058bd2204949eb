import { z } from 'zod';
import { refuse } from './refuse.js';

/** What a person may sign in with. */
export const userNamePattern = /^[a-zA-Z0-9._@-]{2,80}$/;

/** Characters of a password that is given or chosen; one that was kept before is read up to the longest. */
export const newPasswordLimits = { minLength: 12, maxLength: 200 } as const;
export const newPassword = z.string().min(newPasswordLimits.minLength).max(newPasswordLimits.maxLength);
export const typedPassword = z.string().min(1).max(newPasswordLimits.maxLength);

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
