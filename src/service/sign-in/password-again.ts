import type { FastifyRequest } from 'fastify';
import { actorOf } from '../access.js';
import type { ServiceDeps } from '../dependencies.js';
import { type PasswordAgainFor, passwordSignIn } from './password-sign-in.js';

/**
 * Asks for the own password once more: a session left open at a desk is not enough for what carries everything away or
 * cannot be taken back. Who signs in through the hospital has none here.
 */
export async function passwordAgain(
  request: FastifyRequest,
  deps: ServiceDeps,
  password: string,
  why: PasswordAgainFor,
): Promise<void> {
  const { name, hasPassword } = await deps.store.users.get(actorOf(request).userId);
  if (hasPassword) await passwordSignIn(request, deps, { name, password }, `password again, ${why}`);
}
