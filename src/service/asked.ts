import type { FastifyReply, FastifyRequest } from 'fastify';
import type { IsoDate } from '../records/dates.js';
import type { Actor } from '../store/contract.js';
import { actorOf } from './access.js';
import type { Clock } from './clock.js';

/** What whoever answers is given: what address and body say, who asks, and when. */
export interface Asked<Params, Query, Body> {
  readonly request: FastifyRequest;
  readonly reply: FastifyReply;
  /** Only in routes that are not public. */
  readonly actor: Actor;
  readonly id: string;
  readonly params: Params;
  readonly query: Query;
  readonly body: Body;
  readonly today: IsoDate;
}

export const askedOf = <P, Q, B>(
  request: FastifyRequest,
  reply: FastifyReply,
  clock: Clock,
): Asked<P, Q, B> => ({
  request,
  reply,
  get actor() {
    return actorOf(request);
  },
  id: (request.params as { id: string }).id,
  params: request.params as P,
  query: request.query as Q,
  body: (request.body ?? {}) as B,
  today: clock.today(),
});
