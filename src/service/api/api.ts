import type { IncomingMessage, ServerResponse } from 'node:http';
import type { FastifyBaseLogger, FastifyInstance, RawServerDefault } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { administrators, clinicians, everyone, planners, recordKeepers, staff } from '../roles.js';

/** A Fastify whose handlers see what the zod schemas let through. */
export type Api = FastifyInstance<
  RawServerDefault,
  IncomingMessage,
  ServerResponse,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** Who may use a route, said as route configuration. */
export const clinical = { access: clinicians };
export const planning = { access: planners };
export const everyday = { access: staff };
export const administration = { access: administrators };
export const recordKeeping = { access: recordKeepers };
export const signedIn = { access: everyone };
