import { createHash } from 'node:crypto';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { DoorpostError } from '../errors.js';
import type { Actor, Expected, Store } from '../store/contract.js';
import { actorOf } from './access.js';

export interface Written {
  readonly status: 200 | 201 | 202 | 204;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

const TRIES = 3;

/**
 * Carries out a write in one transaction and sends the answer (hence nothing comes back). With an Idempotency-Key the answer is kept in that same transaction, so a
 * request repeated after a lost connection or a killed server gets the first answer and is not done twice.
 */
export async function write(
  store: Store,
  request: FastifyRequest,
  reply: FastifyReply,
  work: (store: Store, actor: Actor) => Promise<Written>,
): Promise<never> {
  const answer = await writeOnce(
    store,
    actorOf(request),
    idempotencyKey(request),
    requestHash(request),
    work,
  );
  reply.code(answer.status as Written['status']).headers(answer.headers ?? {});
  if (answer.replayed) {
    reply.header('idempotency-replayed', 'true');
    return (answer.body === '' ? reply.send() : reply.type('application/json').send(answer.body)) as never;
  }
  return (answer.body === undefined ? reply.send() : reply.send(answer.body)) as never;
}

/**
 * The same for a page's form, whose work says where to go next. The form sent again, by a second press or a reload,
 * goes there too and writes nothing.
 */
export async function saveForm(
  store: Store,
  request: FastifyRequest,
  reply: FastifyReply,
  work: (store: Store, actor: Actor) => Promise<string>,
): Promise<FastifyReply> {
  const answer = await writeOnce(
    store,
    actorOf(request),
    formKey(request),
    requestHash(request),
    async (tx, actor) => ({ status: 303 as const, headers: { location: await work(tx, actor) } }),
  );
  return reply.redirect(answer.headers.location, 303);
}

/** Where a form that was sent before has led; null for one that is new. */
export async function sentBefore(store: Store, request: FastifyRequest): Promise<string | null> {
  const key = request.user && formKey(request);
  return key
    ? ((await store.idempotency.answer(actorOf(request).userId, key))?.headers.location ?? null)
    : null;
}

async function writeOnce<W extends { status: number; body?: unknown; headers?: Written['headers'] }>(
  store: Store,
  actor: Actor,
  key: string | null,
  hash: string,
  work: (store: Store, actor: Actor) => Promise<W>,
) {
  for (let attempt = 1; ; attempt++) {
    try {
      return await store.transaction(async (tx) => {
        const kept = key && (await tx.idempotency.claim(actor.userId, key, hash));
        if (kept) return { ...kept, replayed: true };
        const written = await work(tx, actor);
        if (key)
          await tx.idempotency.save(actor.userId, key, {
            status: written.status,
            headers: written.headers ?? {},
            body: written.body === undefined ? '' : JSON.stringify(written.body),
          });
        return { ...written, headers: written.headers ?? {}, replayed: false };
      });
    } catch (error) {
      const { code } = error as { code?: string };
      if ((code !== '40001' && code !== '40P01') || attempt === TRIES) throw error;
    }
  }
}

/** The page's token and what was sent: the same page sent with other words is another write. */
const formKey = (request: FastifyRequest): string | null =>
  request.once === null ? null : `form ${request.once} ${requestHash(request)}`;

function idempotencyKey(request: FastifyRequest): string | null {
  const given = request.headers['idempotency-key'];
  if (given === undefined) return null;
  if (typeof given === 'string' && /^[\x21-\x7e]{1,200}$/.test(given)) return given;
  throw new DoorpostError('invalid-value', 'The Idempotency-Key cannot be used', {
    field: 'Idempotency-Key',
    accepted: '1 to 200 visible ASCII characters',
  });
}

const requestHash = (request: FastifyRequest): string =>
  createHash('sha256')
    .update(`${request.method} ${request.url}\n${JSON.stringify(request.body ?? null)}`)
    .digest('hex');

export const etag = (version: number): Record<string, string> => ({ etag: `"${version}"` });

/** The version a change is made to, from If-Match; '*' changes whatever is there. Without the header the write is refused. */
export function expectedVersion(request: FastifyRequest): Expected {
  const given = request.headers['if-match'];
  if (given === undefined)
    throw new DoorpostError(
      'version-missing',
      'Send If-Match with the ETag of the version you read, so that nobody else’s change is lost',
      { field: 'If-Match', accepted: 'the ETag of a GET, or *' },
    );
  if (given.trim() === '*') return null;
  const version = /^(?:W\/)?"(\d{1,9})"$/.exec(given.trim())?.[1];
  if (version !== undefined) return Number(version);
  throw new DoorpostError('invalid-value', 'If-Match cannot be read', {
    field: 'If-Match',
    accepted: 'the ETag of a GET such as "3", or *',
  });
}
