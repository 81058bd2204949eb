import type { FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { newPasswordLimits } from '../../records/check/check-account.js';
import type { User } from '../../store/contract.js';
import type { ServiceDeps } from '../dependencies.js';

/** What the password is asked for once more. */
export type PasswordAgainFor = 'for a backup' | 'to erase a record';

/**
 * The user whose name and password these are. A try counts against the account and leaves a row in the access log,
 * with the name that was typed; after several the account has to wait, in the same words whether it is there or not.
 */
export async function passwordSignIn(
  request: FastifyRequest,
  { store, clock }: ServiceDeps,
  given: { readonly name: string; readonly password: string },
  by: 'password' | 'token' | `password again, ${PasswordAgainFor}`,
): Promise<User> {
  const name = printable(given.name).toLowerCase();
  const refused = (why: string) =>
    store.audit.record(
      { userId: 'unknown', name: 'unknown', role: 'system', requestId: request.id },
      'sign-in-failed',
      'session',
      { nameTried: name, why },
    );
  const waitUntil = await store.signInTries.begin(name, clock.now());
  if (waitUntil !== null) {
    await refused('too many tries');
    const seconds = Math.ceil((waitUntil.getTime() - clock.now().getTime()) / 1000);
    throw new DoorpostError(
      'too-many-requests',
      `Too many tries to sign in with this name: wait ${seconds} seconds`,
    );
  }
  const user = await store.users.signIn(name, printable(given.password, newPasswordLimits.maxLength));
  if (user === null) {
    await refused('name or password');
    throw new DoorpostError('not-signed-in', 'Name or password is not right');
  }
  await store.signInTries.clear(name);
  await store.audit.record(
    { userId: user.id, name: user.name, role: user.role, requestId: request.id },
    'sign-in',
    'session',
    { by },
  );
  return user;
}

/** What a database can hold of it: no user has a name or a password with control characters. */
const printable = (text: string, longest = 80): string =>
  text.slice(0, longest).replace(/[\p{Cc}\p{Cs}]/gu, '\ufffd');
