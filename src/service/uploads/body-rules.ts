import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type {} from '../fastify-types.js';

/** What a route may be sent, where it does not say otherwise (`bodyLimit`). */
export const bodyLimits = { signedIn: 256 * 1024, open: 16 * 1024 };

/**
 * Refuses a body before a byte of it is read: to an address that is not there, of a kind the route does not take, or
 * larger than it takes. Registered after sign-in and roles, so that only those who may write send anything.
 */
export function refuseBodies(app: FastifyInstance): void {
  // A route open to everybody reads little.
  app.addHook('onRoute', (route) => {
    if (route.config?.access === 'public') route.bodyLimit ??= bodyLimits.open;
  });
  const limit = app.rateLimit() as unknown as (request: FastifyRequest, reply: FastifyReply) => Promise<void>;
  app.addHook('preValidation', async ({ routeOptions: { url, config }, headers, body }) => {
    // JSON says itself what is a list; a form does not.
    if (url?.startsWith('/api/') === false) refuseRepeated(body, 'form', config.repeated ?? []);
    if (headers['content-type']?.startsWith('application/json')) refuseDeep(body);
  });
  app.addHook('onRequest', async (request, reply) => {
    if (request.is404) await limit(request, reply);
    if (request.is404) throw new DoorpostError('not-found', 'There is nothing at this address');
    refuseRepeated(request.query, 'query', []);
    refuseLong(request.query);
    const type = request.headers['content-type'];
    if (type === undefined || !hasBody(request)) return;
    const accepted = kindsOf(request);
    const kind = type.split(';')[0].trim().toLowerCase();
    if (!accepted.includes(kind))
      throw new DoorpostError('unsupported-body', 'This address does not take such a body', {
        field: 'Content-Type',
        accepted: accepted.join(', '),
      });
  });
}

/** A value given twice would come as a list where one text is meant. */
function refuseRepeated(given: unknown, where: string, allowed: readonly string[]): void {
  for (const [field, value] of Object.entries(given ?? {})) {
    if (Array.isArray(value) && !allowed.includes(field))
      throw new DoorpostError('bad-request', `${field.slice(0, 40)} stands in the ${where} more than once`, {
        field: field.slice(0, 40),
        accepted: 'one value',
      });
  }
}

/** Nothing that is asked for lies so deep; what walks through thousands of levels overflows. */
const MOST_LEVELS = 20;

function refuseDeep(body: unknown): void {
  let level: readonly unknown[] = [body];
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > MOST_LEVELS)
      throw new DoorpostError('bad-request', 'The body has too many levels', {
        accepted: `at most ${MOST_LEVELS} of lists and objects within one another`,
      });
    level = level.flatMap((v) => (typeof v === 'object' && v !== null ? Object.values(v) : []));
  }
}

/** No page and no route asks for so much in its address. */
const MOST_IN_QUERY = 1000;

function refuseLong(query: unknown): void {
  for (const [field, value] of Object.entries(query ?? {}))
    if (String(value).length > MOST_IN_QUERY)
      throw new DoorpostError('bad-request', `${field.slice(0, 40)} in the query is too long`, {
        field: field.slice(0, 40),
        accepted: `at most ${MOST_IN_QUERY} characters`,
      });
}

const hasBody = ({ headers }: FastifyRequest): boolean =>
  headers['transfer-encoding'] !== undefined || Number(headers['content-length'] ?? 0) > 0;

/** The interface speaks JSON, pages speak forms, and files come as multipart where the route takes files. */
function kindsOf({ routeOptions: { url = '', config } }: FastifyRequest): string[] {
  const text = url.startsWith('/api/') ? 'application/json' : 'application/x-www-form-urlencoded';
  return config.upload ? [text, 'multipart/form-data'] : [text];
}
