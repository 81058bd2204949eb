import fc from 'fast-check';
import type { InjectOptions } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Role, systemActor } from '../../src/store/contract.js';
import { exampleCaseload } from '../store/example-children.js';
import { type JsonSchema, nastyText, randomJson } from './random-json.js';
import { routeRoles } from './route-roles.js';
import { type TestService, testService, testToday } from './test-service.js';
import { bodyOf, unbounded } from './unbounded.js';

/** Requests a route; more with DOORPOST_FUZZ_RUNS. */
const RUNS = Number(process.env.DOORPOST_FUZZ_RUNS ?? 12);
const roleOf: Record<string, Role> = { c: 'clinician', s: 'scheduler', a: 'administrator', u: 'auditor' };
const routes = Object.entries(routeRoles)
  .filter(([route]) => !/^GET \/(assets|health|ready|metrics|openapi)/.test(route))
  // Erasing comes last: the others need somebody to ask about.
  .sort(([a], [b]) => Number(a.includes('erasure')) - Number(b.includes('erasure')));

const ids = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom('c0', 'c1', 'c0-m0left', 'c0-d', 'c1-e', 'c2-j') },
  { weight: 1, arbitrary: nastyText },
);

describe('random requests never break the service', () => {
  let service: TestService;
  let document: { paths: Record<string, Record<string, { requestBody?: unknown }>> };
  beforeAll(async () => {
    service = await testService();
    document = (await service.as(null, { url: '/openapi.json' })).json();
  });
  afterAll(() => service.stop());

  it.each(routes)(
    '%s',
    async (route, allowed) => {
      const [method, pattern] = route.split(' ');
      const role = allowed === 'public' ? null : roleOf[allowed[0]];
      const user = (await service.store.users.list()).find((u) => u.name === role);
      const schema = bodySchema(pattern, method);
      const body = schema ? randomJson(schema) : fc.jsonValue({ maxDepth: 3 });
      await fc.assert(
        fc.asyncProperty(
          ids,
          ids,
          body,
          fc.dictionary(
            fc.constantFrom('limit', 'cursor', 'text', 'format', 'month', 'q', 'device'),
            nastyText,
            {
              maxKeys: 3,
            },
          ),
          fc.option(fc.constantFrom('*', '"1"', '"x"', '99', ''), { nil: undefined }),
          async (one, two, payload, query, ifMatch) => {
            let at = 0;
            const url = `${pattern.replace(/:\w+/g, () => encodeURIComponent([one, two][at++ % 2] || 'x'))}?${new URLSearchParams(query)}`;
            const token =
              user && (await service.store.accessTokens.create(user.id, new Date(Date.now() + 60_000)));
            const form = !pattern.startsWith('/api/');
            const answer = await service.app.inject({
              method: method as InjectOptions['method'],
              url,
              headers: {
                ...(token ? { authorization: `Bearer ${token}` } : {}),
                ...(ifMatch === undefined ? {} : { 'if-match': ifMatch }),
                ...(method === 'GET' || method === 'DELETE'
                  ? {}
                  : { 'content-type': form ? 'application/x-www-form-urlencoded' : 'application/json' }),
              },
              ...(method === 'GET' || method === 'DELETE'
                ? {}
                : { payload: form ? asForm(payload) : JSON.stringify(payload) }),
            } as InjectOptions);
            expect(answer.statusCode, `${route} ${answer.body.slice(0, 300)}`).toBeLessThan(500);
            if (answer.statusCode >= 400 && !form)
              expect(answer.json()).toMatchObject({ status: answer.statusCode, code: expect.any(String) });
          },
        ),
        { numRuns: RUNS, seed: 20260201, endOnFailure: true },
      );
      expect(await service.store.ready()).toBeUndefined();
    },
    300_000,
  );

  it('every text, number, list and date that a request can carry has a bound in the document', () => {
    expect(unbounded(document)).toEqual([]);
    // A schema without one is found.
    const open = { type: 'object', properties: { a: { type: 'string' }, b: { type: 'array', items: {} } } };
    expect(unbounded({ paths: { '/x': { post: { requestBody: bodyOf(open) } } } })).toEqual([
      'post /x.a: text of any length',
      'post /x.b: a list of any length',
      'post /x.b[]: anything',
    ]);
  });

  it.each([
    [
      '/api/children/c0/measurements',
      { measure: 'foot_length', side: 'left', value: 190, date: '9999-12-31' },
    ],
    [
      '/api/children/c0/measurements',
      { measure: 'foot_length', side: 'left', value: 190, date: '0001-01-01' },
    ],
    ['/api/children/c0/what-if', { castDate: '9999-12-31' }],
    ['/api/recall-runs', { month: '9999-12' }],
  ])('a date that nobody can mean is refused: %s %j', async (url, payload) => {
    expect((await service.as('clinician', { method: 'POST', url, payload })).statusCode).toBe(422);
  });

  it('an address that asks for very much is refused', async () => {
    const answer = await service.as('clinician', { url: `/children?text=${'x'.repeat(1001)}` });
    expect(answer.statusCode).toBe(400);
  });

  it('files of random text are refused or read, never a fault', async () => {
    const cell = fc.oneof(
      nastyText,
      fc.constantFrom('c0', '2019-01-02', '17,5', 'female', 'left', 'foot_length'),
    );
    const heading = fc.constantFrom(
      'id',
      'child_id',
      'birth_date',
      'sex',
      'measure',
      'side',
      'value',
      'date',
      'x"y',
    );
    const table = fc
      .tuple(
        fc.array(heading, { minLength: 1, maxLength: 8 }),
        fc.array(fc.array(cell, { maxLength: 9 }), { maxLength: 8 }),
      )
      .map(([h, rows]) => [h, ...rows].map((r) => r.join(',')).join('\n'));
    const name = fc.constantFrom(
      'children.csv',
      'measurements.csv',
      'devices.csv',
      'x.csv',
      'b.json',
      'b.ndjson',
      'b.xlsx',
    );
    await fc.assert(
      fc.asyncProperty(name, fc.oneof(table, nastyText, fc.json()), async (file, text) => {
        const answer = await service.as('administrator', {
          method: 'POST',
          url: '/api/imports',
          payload: { files: [{ name: file, text }] },
        });
        expect(answer.statusCode, answer.body.slice(0, 300)).toBeLessThan(500);
      }),
      { numRuns: RUNS * 5, seed: 20260201 },
    );
  });

  it('any visit a store takes in comes back the same', async () => {
    await service.store.caseload.write(exampleCaseload(1, 'prop'), 'test', testToday, systemActor);
    const reading = fc.record({
      measure: fc.constantFrom('foot_length', 'calf_girth', 'knee_height'),
      side: fc.constantFrom('left', 'right'),
      value: fc.double({ min: 90, max: 330, noNaN: true }),
      entered: fc.string({ maxLength: 20 }).filter((s) => !s.includes('\0')),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(reading, { minLength: 1, maxLength: 6 }), async (measurements) => {
        const answer = await service.as('clinician', {
          method: 'POST',
          url: '/api/children/prop0/visits',
          payload: { date: '2026-01-05', measurements },
        });
        expect(answer.statusCode, answer.body).toBe(201);
        const stored = new Map(
          (await service.as('clinician', { url: '/api/children/prop0/measurements' }))
            .json()
            .items.map((m: { id: string }) => [m.id, m]),
        );
        const given = answer.json().items;
        given.forEach((m: { id: string }, i: number) => {
          expect(stored.get(m.id)).toMatchObject({ ...measurements[i], date: '2026-01-05' });
        });
      }),
      { numRuns: RUNS, seed: 20260201 },
    );
  });

  function bodySchema(pattern: string, method: string): JsonSchema | null {
    const path = pattern.replace(/:(\w+)/g, '{$1}');
    const operation = document.paths[path]?.[method.toLowerCase()] as
      | { requestBody?: { content?: Record<string, { schema?: JsonSchema }> } }
      | undefined;
    return operation?.requestBody?.content?.['application/json']?.schema ?? null;
  }
});

const asForm = (payload: unknown): string =>
  new URLSearchParams(
    Object.entries(payload !== null && typeof payload === 'object' ? payload : { x: payload }).map(
      ([k, v]) => [k, typeof v === 'string' ? v : JSON.stringify(v)],
    ) as [string, string][],
  ).toString();
