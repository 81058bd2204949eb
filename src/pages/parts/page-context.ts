import { randomUUID } from 'node:crypto';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { createContext, h, type VNode } from 'preact';
import { useContext } from 'preact/hooks';
import { renderToString } from 'preact-render-to-string';
import type { IsoDate } from '../../records/dates.js';
import type { ServiceDeps, SignedInUser } from '../../service/dependencies.js';
import { signOffViews } from '../../service/sign-offs.js';
import { saveForm } from '../../service/write.js';
import type { Actor, Store } from '../../store/contract.js';
import { type Format, formatFor, readerLocale } from './format.js';

export interface PageContext {
  readonly user: SignedInUser | null;
  /** Token a form sends back; empty on pages without one. */
  readonly csrf: string;
  /** Sent back by the page's forms, so that a second press writes nothing again. */
  readonly once: string;
  readonly format: Format;
  readonly today: IsoDate;
  readonly clinicName: string;
  readonly demo: boolean;
  /** Defaults that no practitioner of this clinic has signed, by their names; none in the demo. */
  readonly unsigned: readonly string[];
  readonly path: string;
  readonly notice: string;
}

/** Of the page that is being drawn; every component asks here. */
const Page = createContext<PageContext>({} as PageContext);
export const usePage = (): PageContext => useContext(Page);
export const renderPage = (page: VNode, value: PageContext): string =>
  renderToString(h(Page.Provider, { value }, page));

declare module 'fastify' {
  interface FastifyReply {
    /** Sends a page; `context` where something of it is to be other than usual. */
    page(page: VNode, status?: number, context?: Partial<PageContext>): Promise<FastifyReply>;
    /** Writes what a form says, once, and leads to the page that the work names. */
    save(work: (tx: Store, actor: Actor) => Promise<string>): Promise<FastifyReply>;
  }
}

export function registerPageReply(app: FastifyInstance, deps: ServiceDeps): void {
  app.decorateReply('page', async function (page, status = 200, changed = {}) {
    return sendPage(this, page, status, { ...(await pageContext(this.request, this, deps)), ...changed });
  });
  app.decorateReply('save', function (work) {
    return saveForm(deps.store, this.request, this, work);
  });
}

/** Dates and numbers as who asks writes them. */
export async function readerFormat(request: FastifyRequest, { store, config }: ServiceDeps): Promise<Format> {
  const { value } = await store.settings.get();
  return formatFor(readerLocale(request.headers['accept-language'], value.language), config.timeZone);
}

/** Asked for twice of one answer it is made once. */
export function pageContext(
  request: FastifyRequest,
  reply: FastifyReply,
  deps: ServiceDeps,
): Promise<PageContext> {
  const context = contexts.get(reply) ?? contextOf(request, reply, deps);
  contexts.set(reply, context);
  return context;
}
const contexts = new WeakMap<FastifyReply, Promise<PageContext>>();

async function contextOf(
  request: FastifyRequest,
  reply: FastifyReply,
  deps: ServiceDeps,
): Promise<PageContext> {
  const [{ value: settings }, defaults] = await Promise.all([
    deps.store.settings.get(),
    deps.config.demo || !request.user ? [] : signOffViews(deps.store),
  ]);
  // An address the router could not read has no query and no session.
  const query = (request.query ?? {}) as Record<string, string | undefined>;
  return {
    user: request.user ?? null,
    csrf: request.user ? reply.csrfToken() : '',
    once: randomUUID(),
    format: formatFor(
      readerLocale(request.headers['accept-language'], settings.language),
      deps.config.timeZone,
    ),
    today: deps.clock.today(),
    clinicName: settings.clinicName,
    demo: deps.config.demo,
    unsigned: defaults.filter((view) => !view.holds).map((view) => view.label),
    path: request.url.split('?')[0],
    notice: notices[query.notice ?? ''] ?? '',
  };
}

/** Only these can be shown, so that a link cannot put words into the page. */
const notices: Readonly<Record<string, string>> = {
  'visit-saved': 'Visit saved. The forecasts below already use it.',
  'event-saved': 'Saved. The forecasts below already use it.',
  'child-saved': 'Details saved.',
  'signed-out-elsewhere':
    'Everywhere else you are signed out, and the address of your calendar is taken back.',
  'child-erased': 'The record was erased. The access log keeps when and why.',
  'device-saved': 'Device saved.',
  'device-fitted': 'Saved: fitted and worn.',
  'device-undone': 'The last change of the device was taken back.',
  'next-cast': 'The next one is cast and being made. This is the slip for the workshop.',
  'event-corrected': 'Corrected. What was entered first is kept beside it.',
  'visit-moved': 'The visit has its new day. The old one is kept in the corrections.',
  'suggestion-accepted': 'Corrected. The original reading is kept beside the correction.',
  'suggestion-undone': 'The correction was taken back.',
  'state-saved': 'State saved.',
  'state-undone': 'The last change was taken back.',
  'run-started': 'A new list is being made. This page shows it when it is ready.',
  'family-asked': 'Asked. The family sees the two questions when it opens its link.',
  'answer-accepted': 'Kept as a skin check told by the family. The forecasts below already use it.',
  'answer-set-aside': 'Set aside; nothing of the record changed.',
  'link-withdrawn': 'The family link was withdrawn; it no longer opens.',
  'user-saved': 'User saved.',
  'fit-rules-saved':
    'Saved. Forecasts are being computed again with it; the recall list keeps its dates until it is made anew.',
  'settings-saved': 'Settings saved.',
  'default-signed': 'Signed.',
  'import-started':
    'The import is being written. Its children stand on the next recall list: that of the next working morning, or one made by hand.',
  'reading-saved': 'Kept for the next sheets of this kind.',
  'password-changed': 'Your password was changed. Everywhere else you have to sign in again.',
  'signed-out': 'You are signed out.',
};

export function sendPage(
  reply: FastifyReply,
  page: VNode,
  status: number,
  context: PageContext,
): FastifyReply {
  return reply
    .status(status)
    .type('text/html; charset=utf-8')
    .header('cache-control', 'no-store')
    .send(`<!doctype html>\n${renderPage(page, context)}`);
}
