import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { VNode } from 'preact';
import type { z } from 'zod';
import { DoorpostError } from '../../errors.js';
import { readNumber } from '../../exchange/csv/read-number.js';
import { acceptedBy } from '../../records/check/accepted-by.js';
import { fieldKind } from '../../records/field-limits.js';
import { type Asked as AskedWith, askedOf } from '../../service/asked.js';
import type { Access, ServiceDeps } from '../../service/dependencies.js';
import type { Store } from '../../store/contract.js';
import { pageContext } from './page-context.js';

/** What a page is asked with. */
export type Asked = AskedWith<Readonly<Record<string, string>>, Fields, Fields>;

interface Writing extends Asked {
  readonly tx: Store;
}

/** The routes of a room of pages: each says its address, who may open it, and what it answers. */
export function pagesOf(app: FastifyInstance, deps: ServiceDeps) {
  const asked = (request: FastifyRequest, reply: FastifyReply): Asked => askedOf(request, reply, deps.clock);
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
        // Asked for beside what the page itself asks: one question of the database answers both.
        pageContext(request, reply, deps).catch(() => {});
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

/** Fields of a form or a query as they come: text, or absent. */
export type Fields = Readonly<Record<string, string | undefined>>;

const SAID_ON_THE_FORM = ['invalid-value', 'already-there', 'not-signed-in', 'too-many-requests'];

/** Why a write was refused, in the words every other door has for it, to stand above the form; '' when it was done. */
export async function refusalOf(write: Promise<unknown>): Promise<string> {
  try {
    await write;
    return '';
  } catch (error) {
    if (error instanceof DoorpostError && SAID_ON_THE_FORM.includes(error.code)) return error.message;
    throw error;
  }
}

/** Refuses what a form said in one of its fields. */
export function cannotBe(field: string, given: string | undefined, accepted: string): never {
  throw new DoorpostError('invalid-value', `${field} '${given ?? ''}' cannot be; accepted: ${accepted}`, {
    field,
    given,
    accepted,
  });
}

/** A form's fields as the schema of the interface has them, refused by that schema and in its words. */
export function typedRecord<S extends z.ZodObject>(schema: S, body: Fields = {}): z.output<S> {
  const typed: Record<string, unknown> = {};
  for (const [name, field] of Object.entries<z.core.$ZodType>(schema.shape)) {
    const text = body[name]?.trim();
    if (text !== undefined) typed[name] = fieldValue(text, field as z.ZodType);
  }
  const read = schema.safeParse(typed);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  return cannotBe(issue.path.join('.'), body[String(issue.path[0])], acceptedBy(issue));
}

/** A number may have its unit behind it; an empty field is nothing where there may be nothing. */
function fieldValue(text: string, field: z.ZodType): unknown {
  const takes = (nothing: unknown) => field.safeParse(nothing).success;
  if (text === '' && takes(null)) return null;
  if (text === '') return takes('') || !takes(undefined) ? '' : undefined;
  return (fieldKind(field) === 'number' ? readNumber(text.replace(/\s*(?:mm|°)$/i, '')) : null) ?? text;
}
