import { createHmac, timingSafeEqual } from 'node:crypto';
import { DoorpostError } from '../errors.js';
import { planners } from '../records/roles.js';
import type { Store, User } from '../store/contract.js';

/** Signed with the account's version: whatever ends its sessions ends the address too. */
const signature = async (store: Store, user: User): Promise<string> =>
  createHmac('sha256', await store.secret('calendar-feed'))
    .update(`${user.id} ${user.version}`)
    .digest('base64url');

/** Where a calendar program reads the recall plan for this person. */
export async function calendarFeedPath(store: Store, userId: string): Promise<string> {
  const user = await store.users.get(userId);
  return `/api/calendar-feed/${user.id}.${await signature(store, user)}.ics`;
}

/** Whose address it is; refused when it is not, or not any more. */
export async function ownerOfFeed(store: Store, token: string): Promise<User> {
  const [id, given = ''] = token.split('.');
  const user = await store.users.get(id).catch(() => null);
  const right = user && !user.disabled && planners.includes(user.role) && (await signature(store, user));
  if (!user || !right || !same(given, right))
    throw new DoorpostError(
      'link-not-valid',
      'This calendar address is not valid any more: ask for a new one',
    );
  return user;
}

const same = (a: string, b: string) =>
  a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));
