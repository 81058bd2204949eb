import type { IncomingMessage, ServerResponse } from 'node:http';
import type { FastifyBaseLogger, FastifyInstance, RawServerDefault } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Role } from '../../store/contract.js';

/** A Fastify whose handlers see what the zod schemas let through. */
export type Api = FastifyInstance<
  RawServerDefault,
  IncomingMessage,
  ServerResponse,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** Who may use a route, said as route configuration. */
export const only = (...access: Role[]) => ({ access });

export const clinical = only('clinician');
export const planning = only('clinician', 'scheduler');
export const everyday = only('clinician', 'scheduler', 'administrator');
export const administration = only('administrator');
/** Who may see and change how the clinic's sheets are read. */
export const sheetReaders = only('clinician', 'administrator');
export const signedIn = only('clinician', 'scheduler', 'administrator', 'auditor');
