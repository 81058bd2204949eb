import type { InjectOptions, LightMyRequestResponse } from 'fastify';
import type { Role } from '../../../src/store/contract.js';
import { routeRoles } from '../../service/route-roles.js';
import type { TestService } from '../../service/test-service.js';
import type { Dice } from './dice.js';
import { text, twist, value } from './nasty.js';

const roleOf: Record<string, Role> = { c: 'clinician', s: 'scheduler', a: 'administrator', u: 'auditor' };
/** Erasing, signing out and changing accounts leave nobody to ask: they are asked last, on a service of their own. */
const last = /eras(?:e|ure)$|sign-out|DELETE \/api\/session|\/password|(POST|PATCH) \/(api\/)?users/;
const all = Object.entries(routeRoles).filter(([route]) => !route.includes('assets'));
const routes = all.filter(([route]) => !last.test(route));
export const lastRoutes = all.filter(([route]) => last.test(route));
const ids = [
  'c0',
  'c1',
  'c2',
  'c0-d',
  'c1-d',
  'c0-m0left',
  'c1-e',
  'c2-j',
  'c0-k',
  'foot_length',
  'solid-afo',
  'children',
  'none',
];
const queries = [
  'limit',
  'cursor',
  'text',
  'q',
  'format',
  'month',
  'device',
  'childId',
  'action',
  'from',
  'to',
  'sort',
  'state',
  'then',
  'failed',
  'measure',
  'date',
  'value',
  'until',
  'week',
  'language',
  'notice',
];

/** A JSON Schema as the OpenAPI document gives it; only what our schemas use. */
interface JsonSchema {
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly items?: JsonSchema;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly JsonSchema[];
}

type Document = {
  paths: Record<
    string,
    Record<string, { requestBody?: { content?: Record<string, { schema?: JsonSchema }> } }>
  >;
};

/** A request by its number: the routes come in turn, so that none is left out. */
export async function requestMaker(
  service: TestService,
  asked: readonly (readonly [route: string, allowed: string])[] = routes,
): Promise<(dice: Dice, turn: number) => InjectOptions> {
  const document = (await service.as(null, { url: '/openapi.json' })).json() as Document;
  const cookies = await Promise.all(
    (['clinician', 'scheduler', 'administrator', 'auditor'] as const).map(async (role) => {
      const answer = await service.app.inject({
        method: 'POST',
        url: '/sign-in',
        headers: { 'content-type': 'application/x-www-form-urlencoded' },
        payload: new URLSearchParams({ name: role, password: service.passwords[role] }).toString(),
      });
      return String(answer.headers['set-cookie']).split(';')[0];
    }),
  );
  // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: every part of a request by a throw of the dice
  return (dice, turn) => {
    const [route, allowed] = asked[turn % asked.length];
    const [method, pattern] = dice.chance(0.95)
      ? route.split(' ')
      : [dice.of(['GET', 'POST', 'PUT', 'PATCH', 'DELETE', 'HEAD', 'OPTIONS']), route.split(' ')[1]];
    const fitting = ids.filter(
      (id) => id.includes('-') === /devices\/:id|events|measurements|jobs|:device/.test(pattern),
    );
    const piece = () => encode(dice.chance(0.8) ? dice.of(fitting) : text(dice));
    const path = dice.chance(0.97) ? pattern.replace(/:\w+/g, piece) : `/${piece()}/${piece()}`;
    const query = dice
      .some(3, () => `${encode(dice.chance(0.9) ? dice.of(queries) : text(dice))}=${encode(text(dice))}`)
      .join('&');
    const role = allowed === 'public' || dice.chance(0.05) ? null : roleOf[dice.of([...allowed])];
    const headers: Record<string, string> =
      role && dice.chance(0.9)
        ? { authorization: `Bearer ${service.tokens[role]}` }
        : { cookie: dice.chance(0.8) ? dice.of(cookies) : header(text(dice)) };
    for (const name of [
      'if-match',
      'idempotency-key',
      'accept',
      'accept-language',
      'x-csrf-token',
      'sec-fetch-site',
      'x-forwarded-for',
      'referer',
      'host',
      'if-none-match',
    ])
      if (dice.chance(0.12))
        headers[name] = header(
          dice.chance(0.3) ? dice.of(['*', 'text/html', 'cross-site', 'localhost']) : text(dice),
        );
    if (dice.chance(0.3)) headers.accept = 'text/html';
    if (['GET', 'HEAD', 'OPTIONS'].includes(method))
      return { method, url: `${path}?${query}`, headers } as InjectOptions;
    const page = !pattern.startsWith('/api/');
    const schema =
      document.paths[pattern.replace(/:(\w+)/g, '{$1}')]?.[method.toLowerCase()]?.requestBody?.content?.[
        'application/json'
      ]?.schema;
    const body = schema
      ? fits(schema, dice)
      : Object.fromEntries(
          dice.some(6, () => [
            dice.of([...queries, 'date', 'version', 'reason', 'foot_length_left', 'id']),
            text(dice),
          ]),
        );
    const payload = dice.chance(0.4) ? twist(body, dice) : body;
    headers['content-type'] = dice.chance(0.94)
      ? page
        ? 'application/x-www-form-urlencoded'
        : 'application/json'
      : dice.of([
          'multipart/form-data',
          'multipart/form-data; boundary=X',
          'text/plain',
          'application/json',
          header(text(dice)),
        ]);
    const sent = page && dice.chance(0.95) ? asForm(payload) : (JSON.stringify(payload) ?? '');
    return {
      method,
      url: `${path}?${query}`,
      headers,
      payload: dice.chance(0.05) ? sent.slice(0, dice.below(sent.length + 1)) : sent,
    } as InjectOptions;
  };
}

/** What is wrong with an answer; null for nothing. A refusal of the interface says its status and its code. */
export function answerFault(request: InjectOptions, answer: LightMyRequestResponse): string | null {
  const { statusCode: status } = answer;
  const said = `${request.method} ${String(request.url).slice(0, 200)} -> ${status}`;
  if (status >= 500) return said;
  if (status < 400 || request.method === 'HEAD' || !String(request.url).startsWith('/api/')) return null;
  try {
    const body = JSON.parse(answer.body);
    if (body.status === status && typeof body.code === 'string') return null;
  } catch {}
  return `${said}: ${answer.body.slice(0, 200)}`;
}

const encode = (words: string): string => encodeURIComponent(words.replace(/\p{Cs}/gu, '?')).slice(0, 300);
/** What Node lets into a header at all. */
const header = (words: string): string =>
  words
    .replace(/[^\t\x20-\x7e\x80-\xff]/g, '')
    .slice(0, 300)
    .trim() || 'x';
const asForm = (payload: unknown): string =>
  Object.entries(payload !== null && typeof payload === 'object' ? payload : { x: payload })
    .map(([k, v]) => `${encode(k)}=${encode(typeof v === 'string' ? v : (JSON.stringify(v) ?? ''))}`)
    .join('&');

function fits(schema: JsonSchema, dice: Dice): unknown {
  if (schema.anyOf) return fits(dice.of(schema.anyOf), dice);
  if (schema.enum) return dice.of(schema.enum);
  switch (Array.isArray(schema.type) ? schema.type[0] : schema.type) {
    case 'object':
      return Object.fromEntries(
        Object.entries(schema.properties ?? {})
          .filter(([key]) => schema.required?.includes(key) || dice.chance(0.4))
          .map(([key, inner]) => [key, fits(inner, dice)]),
      );
    case 'array':
      return dice.some(3, () => fits(schema.items ?? {}, dice));
    case 'integer':
      return dice.of([0, 1, 2, 7, 30, 400, -1, 2 ** 31]);
    case 'number':
      return dice.of([0, 1, 7.5, 178, 190.5, 12, -3, 1e308, 5e-324]);
    case 'boolean':
      return dice.chance(0.5);
    case 'null':
      return null;
    default:
      return dice.chance(0.6)
        ? dice.of([
            '2026-01-05',
            '2026-02-01',
            '2018-03-01',
            'foot_length',
            'left',
            'c0',
            'c0-d',
            'solid-afo',
            'cast',
            'contacted',
          ])
        : dice.chance(0.5)
          ? text(dice)
          : value(dice);
  }
}
