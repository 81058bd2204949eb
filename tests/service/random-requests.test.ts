import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { systemActor } from '../../src/store/contract.js';
import { Dice } from '../operations/fuzz/dice.js';
import { answerFault, lastRoutes, requestMaker } from '../operations/fuzz/requests.js';
import { exampleCaseload } from '../store/example-children.js';
import { type TestService, testService, testToday } from './test-service.js';
import { bodyOf, unbounded } from './unbounded.js';

/** Requests a route; more with DOORPOST_FUZZ_RUNS. All other routes: `npm run fuzz`. */
const RUNS = Number(process.env.DOORPOST_FUZZ_RUNS ?? 12);

/** Text as people and attackers type it. */
const nastyText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 40 }),
  fc.constantFrom(
    '',
    '\u0000',
    '../../etc',
    "'; drop table children; --",
    '%',
    '{{}}',
    '١٢٣',
    '-0',
    '1e999',
    'NaN',
  ),
  fc.string({ minLength: 300, maxLength: 600 }),
);

describe('random requests never break the service', () => {
  let service: TestService;
  let document: { paths: Record<string, Record<string, { requestBody?: unknown }>> };
  beforeAll(async () => {
    service = await testService();
    document = (await service.as(null, { url: '/openapi.json' })).json();
  });
  afterAll(() => service.stop());

  it('erasing, signing out and changing accounts, asked for anyhow', async () => {
    const apart = await testService();
    const make = await requestMaker(apart, lastRoutes);
    const users = await apart.store.users.list();
    const faults: string[] = [];
    for (let turn = 0; turn < RUNS * lastRoutes.length; turn++) {
      // The request before may have ended the sign-in.
      for (const { id, role } of users)
        apart.tokens[role] = await apart.store.accessTokens.create(id, new Date(Date.now() + 60_000));
      const request = make(new Dice(20260201, turn), turn);
      const wrong = answerFault(request, await apart.app.inject(request));
      if (wrong !== null) faults.push(wrong);
    }
    expect(faults).toEqual([]);
    expect(await apart.store.ready()).toBeUndefined();
    await apart.stop();
  });

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
      { numRuns: RUNS * 2, seed: 20260201 },
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
});
