import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { VNode } from 'preact';
import type { IsoDate } from '../../records/dates.js';
import { actorOf } from '../../service/access.js';
import type { Access, ServiceDeps } from '../../service/dependencies.js';
import type { Actor, Store } from '../../store/contract.js';
import type { Fields } from './route-types.js';

/** What a page is asked with: what its address and its form say, who asks, and when. */
export interface Asked {
  readonly request: FastifyRequest;
  readonly reply: FastifyReply;
  readonly actor: Actor;
  readonly id: string;
  readonly params: Readonly<Record<string, string>>;
  readonly query: Fields;
  readonly body: Fields;
  readonly today: IsoDate;
}

interface Writing extends Asked {
  readonly tx: Store;
}

/** The routes of a room of pages: each says its address, who may open it, and what it answers. */
export function pagesOf(app: FastifyInstance, { clock }: ServiceDeps) {
  const asked = (request: FastifyRequest, reply: FastifyReply): Asked => ({
    request,
    reply,
    get actor() {
      return actorOf(request);
    },
    id: (request.params as { id: string }).id,
    params: request.params as Asked['params'],
    query: request.query as Fields,
    body: (request.body ?? {}) as Fields,
    today: clock.today(),
  });
  const post = (
    url: string,
    access: Access,
    answer: (asked: Asked) => Promise<FastifyReply>,
    config: object = {},
  ): void => {
    app.post(url, { config: { access, ...config } }, (request, reply) => answer(asked(request, reply)));
  };
  return {
    get: (url: string, access: Access, page: (asked: Asked) => Promise<VNode | FastifyReply>): void => {
      app.get(url, { config: { access } }, async (request, reply) => {
        const answer = await page(asked(request, reply));
        return reply === (answer as unknown) ? reply : reply.page(answer as VNode);
      });
    },

    /** A form that may be shown again with what cannot be. */
    post,

    /** A form that is refused or written, once: the work says where it leads. */
    save: (url: string, access: Access, work: (writing: Writing) => Promise<string>): void =>
      post(url, access, (form) =>
        form.reply.save((tx, actor) => work({ ...form, actor, tx, today: form.today })),
      ),
  };
}
