import type { IncomingMessage, ServerResponse } from 'node:http';
import type {
  FastifyBaseLogger,
  FastifyInstance,
  FastifyReply,
  FastifyRequest,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { z } from 'zod';
import type { ChildRecord } from '../../records/caseload.js';
import {
  administrators,
  clinicians,
  everyone,
  planners,
  recordKeepers,
  staff,
  writersOf,
} from '../../records/roles.js';
import type { Expected, Store, Versioned } from '../../store/contract.js';
import { type Asked as AskedWith, askedOf } from '../asked.js';
import type { ServiceDeps } from '../dependencies.js';
import { etag, expectedVersion, type Written, write } from '../write.js';
import { failures, idParams, itemsOf } from './schemas/common.js';

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
/** Who writes records of a kind. */
export const writing = (kind: keyof typeof writersOf) => ({ access: writersOf[kind] });

/** What a route takes, and what it answers by status. `:id` in its address is checked without being named. */
interface Shape {
  readonly params?: z.ZodType;
  readonly querystring?: z.ZodType;
  readonly body?: z.ZodType;
  readonly description?: string;
  readonly 200?: z.ZodType;
  readonly 201?: z.ZodType;
  readonly 202?: z.ZodType;
  readonly 204?: z.ZodType;
}
type Part<S, K extends keyof Shape> = S extends { readonly [P in K]: infer Z extends z.ZodType }
  ? z.output<Z>
  : never;
type Answer<S> = {
  [K in 200 | 201 | 202 | 204]: S extends { readonly [P in K]: infer Z extends z.ZodType }
    ? z.input<Z>
    : never;
}[200 | 201 | 202 | 204];
type Said<S> = S extends { readonly 204: unknown } ? unknown : Answer<S> | Tagged<Answer<S>>;

/** An answer that goes out with its version, and for a new record with its address. */
class Tagged<T> {
  constructor(
    readonly body: T,
    readonly headers: Readonly<Record<string, string>>,
  ) {}
}
/** A file: its kind, and the name it is kept under. */
export const sentAs = <T = string>(body: T | Buffer, type: string, name?: string): Tagged<T> =>
  new Tagged(body as T, {
    'content-type': type,
    ...(name === undefined ? {} : { 'content-disposition': `attachment; filename="${name}"` }),
  });
export const tagged = <T>({ value, version }: Versioned<T>, location?: string): Tagged<T> =>
  new Tagged(value, { ...etag(version), ...(location === undefined ? {} : { location }) });

/** What a handler is given of its request. */
type Asked<S> = AskedWith<Part<S, 'params'>, Part<S, 'querystring'>, Part<S, 'body'>>;
interface Writing<S> extends Asked<S> {
  readonly tx: Store;
  /** The version that the change is made to. */
  readonly expected: Expected;
}

/** Registers a route 'METHOD /address'; the status is that of the answer its shape names, failures come with every route. */
const serverOf =
  (api: Api, tags: readonly string[]) =>
  (
    address: string,
    config: object,
    summary: string,
    { params, querystring, body, description, ...answers }: Shape,
    handler: (status: Written['status'], request: FastifyRequest, reply: FastifyReply) => unknown,
  ): void => {
    const [method, url] = address.split(' ');
    const takes = { params: params ?? (url.includes(':id') ? idParams : undefined), querystring, body };
    const told = { tags, summary, description, ...takes };
    const status = Number(Object.keys(answers)[0]) as Written['status'];
    api.route({
      method,
      url,
      config,
      schema: {
        ...Object.fromEntries(Object.entries(told).filter(([, given]) => given)),
        response: { ...answers, ...failures },
      },
      handler: (request: FastifyRequest, reply: FastifyReply) => handler(status, request, reply),
    } as never);
  };

/** The routes of one subject. Everything a handler is not given it takes from `deps`. */
export function routesOf(api: Api, { store, clock }: ServiceDeps, tags: readonly string[]) {
  const asked = <S>(request: FastifyRequest, reply: FastifyReply): Asked<S> => askedOf(request, reply, clock);
  const serve = serverOf(api, tags);
  /** What is no write, or one that is not a single transaction. */
  const act = <S extends Shape>(
    address: string,
    config: object,
    summary: string,
    shape: S,
    answer: (asked: Asked<S>) => Promise<Said<S>>,
  ): void =>
    serve(address, config, summary, shape, async (status, request, reply) => {
      const said = await answer(asked(request, reply));
      if (said instanceof Tagged) return reply.code(status).headers(said.headers).send(said.body);
      return reply.code(status).send(said ?? null);
    });
  const get: typeof act = (url, ...route) => act(`GET ${url}`, ...route);
  return {
    act,
    get,

    /** The part of a child's record that is a list. */
    ofRecord: <T extends z.ZodType>(
      part: string,
      config: object,
      summary: string,
      item: T,
      of: (record: ChildRecord) => readonly z.input<T>[],
    ): void =>
      get(`/children/:id/${part}`, config, summary, { 200: itemsOf(item) }, async ({ id, actor }) => ({
        items: of(await store.children.record(id, actor)),
      })),

    /** A write, in one transaction, once for each Idempotency-Key. */
    write: <S extends Shape>(
      address: string,
      config: object,
      summary: string,
      shape: S,
      work: (writing: Writing<S>) => Promise<Said<S>>,
    ): void =>
      serve(address, config, summary, shape, (status, request, reply) =>
        write(store, request, reply, async (tx, actor) => {
          const said = await work({
            ...asked<S>(request, reply),
            actor,
            tx,
            get expected() {
              return expectedVersion(request);
            },
          });
          return said instanceof Tagged
            ? { status, body: said.body, headers: said.headers }
            : { status, body: said ?? null };
        }),
      ),
  };
}
