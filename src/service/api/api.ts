import type { IncomingMessage, ServerResponse } from 'node:http';
import type { FastifyBaseLogger, FastifyInstance, RawServerDefault } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { z } from 'zod';
import { administrators, clinicians, everyone, planners, recordKeepers, staff } from '../roles.js';
import { failures } from './schemas/common.js';

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

/**
 * A route's entry in the document and who may use it. `answers` by status, failures come with every route; `takes` is
 * what is checked of a request: params, querystring, body.
 */
export const route = <C, A extends Readonly<Record<number, z.ZodType>>, T extends object = object>(
  config: C,
  tags: readonly string[],
  summary: string,
  answers: A,
  takes?: T,
) => ({ config, schema: { tags, summary, ...(takes as T), response: { ...answers, ...failures } } });
