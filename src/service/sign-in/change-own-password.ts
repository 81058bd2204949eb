import type { FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type { User } from '../../store/contract.js';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';

/** Changes the own password by the present one; a wrong present one counts as a try to sign in. */
export async function changeOwnPassword(
  request: FastifyRequest,
  { store, clock }: ServiceDeps,
  given: { readonly present: string; readonly next: string },
): Promise<User> {
  const actor = actorOf(request);
  const { hasPassword } = await store.users.get(actor.userId);
  if (!hasPassword)
    throw new DoorpostError('not-allowed', 'Your password is kept by your hospital: change it there');
  if (given.present === given.next)
    throw new DoorpostError('invalid-value', 'The new password is the present one', { field: 'next' });
  const waitUntil = await store.signInTries.begin(actor.name, clock.now());
  if (waitUntil !== null)
    throw new DoorpostError('too-many-requests', 'Too many wrong passwords: wait some minutes');
  const user = await store.users.changeOwnPassword(actor.userId, given.present, given.next, actor);
  await store.signInTries.clear(actor.name);
  return user;
}
