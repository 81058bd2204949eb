import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Caseload } from '../../src/records/caseload.js';
import { leftOutText } from '../../src/service/jobs/recall-job.js';
import { systemActor } from '../../src/store/contract.js';
import { exampleCaseload } from '../store/example-children.js';
import { routeRoles } from './route-roles.js';
import { type TestService, testService, testToday } from './test-service.js';

const roleOf = { c: 'clinician', s: 'scheduler', a: 'administrator', u: 'auditor' } as const;
const none: Caseload = {
  children: [],
  measurements: [],
  markers: [],
  devices: [],
  events: [],
  jobs: [],
  skinChecks: [],
};

/** What a clinic looks like in its first days; each is filled up to become the next. */
const clinics: { name: string; add: Caseload; settings?: object }[] = [
  { name: 'no child', add: none },
  {
    name: 'one child, never measured, no device',
    add: { ...none, children: exampleCaseload(1).children },
  },
  {
    name: 'no clinician and no capacity',
    add: none,
    settings: { castingSlotsPerWeek: 0, clinicians: [], workshopJobsPerWeek: 0 },
  },
  { name: 'one child with one device', add: exampleCaseload(1) },
];

type Letter = keyof typeof roleOf;
const patterns = Object.entries(routeRoles).map(([route, allowed]) => {
  const [method, pattern] = route.split(' ');
  return { method, allowed, fits: new RegExp(`^${pattern.replace(/:\w+/g, '[^/]+')}$`) };
});

/** What a page offers that its reader's role may not do. */
function offeredInVain(page: string, role: string): string[] {
  const offers = [
    ...page.matchAll(/<(a|form|button)\b[^>]*?\s(?:href|action|formaction)="(\/[^"?#]*)[^"]*"[^>]*>/g),
  ];
  return offers.flatMap(([tag, name, path]) => {
    const method = name === 'a' || /method="get"/i.test(tag) ? 'GET' : 'POST';
    const route = patterns.find((p) => p.method === method && p.fits.test(path));
    const may =
      !route || route.allowed === 'public' || [...route.allowed].some((l) => roleOf[l as Letter] === role);
    return may ? [] : [`${method} ${path}`];
  });
}

describe('a clinic in its first days', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService({}, 0);
  });
  afterAll(() => service.stop());

  it.each(clinics)(
    '$name: every page and job works',
    async ({ add, settings }) => {
      await service.store.caseload.write(add, 'test', testToday, systemActor);
      if (settings) {
        const answer = await service.as('administrator', {
          method: 'PATCH',
          url: '/api/settings',
          payload: settings,
          headers: { 'if-match': '*' },
        });
        expect(answer.statusCode, answer.body).toBeLessThan(500);
      }
      await service.store.enqueue('nightly', {});
      for (const url of ['/api/jobs/forecasts', '/api/recall-runs']) {
        const started = await service.as('scheduler', { method: 'POST', url, payload: {} });
        expect(started.statusCode).toBe(202);
        const { jobRunId } = started.json();
        expect(await service.jobEnded(jobRunId)).toBe('done');
        expect((await service.store.jobRuns.get(jobRunId)).message).toBe('');
      }
      const vain: string[] = [];
      for (const [route, allowed] of Object.entries(routeRoles)) {
        const [method, pattern] = route.split(' ');
        if (method !== 'GET') continue;
        const url = pattern
          .replace(':id', pattern.includes('/devices/:id') ? 'c0-d' : 'c0')
          .replace(':device', 'c0-d')
          .replace(':measure', 'foot_length')
          .replace(':family', 'solid-afo')
          .replace(':table', 'children')
          .replace(/:\w+/g, 'none');
        const accept = url.startsWith('/api/') ? 'application/json' : 'text/html';
        for (const role of allowed === 'public'
          ? [null]
          : [...allowed].map((letter) => roleOf[letter as Letter])) {
          const answer = await service.as(role, { method: 'GET', url, headers: { accept } });
          expect(answer.statusCode, `${url} ${answer.body.slice(0, 300)}`).toBeLessThan(500);
          if (role)
            vain.push(...offeredInVain(answer.body, role).map((offer) => `${role} on ${url}: ${offer}`));
        }
      }
      expect(vain).toEqual([]);
    },
    120_000,
  );
});

describe('a child whose record the sums cannot take', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService({}, 0);
    await service.store.caseload.write(exampleCaseload(5), 'test', testToday, systemActor);
    // Past every door, as from a database written by hand: the store itself refuses them.
    const db = new pg.Client({ connectionString: service.database.url });
    await db.connect();
    const marker = `insert into markers (id, child_id, date, kind, value, sd_years, recorded_by)
      values ($1, $2, '2025-01-10', $3, $4, $5, 'hand')`;
    await db.query(marker, ['by-hand-0', 'c0', 'bone-age', 1e100, 1]);
    await db.query(marker, ['by-hand-1', 'c1', 'maturity-offset', 0, 1e-12]);
    for (const [child, error] of [
      ['c2', 1e-300],
      ['c3', 1e300],
    ])
      await db.query(
        `insert into measurements (id, child_id, measure, side, value, date, method, observer, technical_error, entered, extra, recorded_by)
         select id || '-hand', child_id, measure, side, value, date + 1, method, observer, $2, entered, extra, 'hand'
         from measurements where child_id = $1`,
        [child, error],
      );
    await db.end();
  });
  afterAll(() => service.stop());

  it('is counted where the run is shown', () => {
    const notForecast = { forecasts: [{ outcome: 'not-computed' }] } as never;
    expect(leftOutText([], [])).toBe('');
    expect(leftOutText([notForecast], ['c1', 'c2'])).toBe(
      '1 child could not be forecast: a value in the record cannot be. The others are done. ' +
        '2 children could not be planned: the record does not fit together. Look at fit and skin. The others are done',
    );
  });

  it('costs no other child its forecast, and the run says how many it left out', async () => {
    const started = await service.as('scheduler', { method: 'POST', url: '/api/recall-runs', payload: {} });
    const { jobRunId } = started.json();
    expect(await service.jobEnded(jobRunId)).toBe('done');
    const outcomes = await Promise.all(
      [0, 1, 2, 3, 4].map(
        async (i) => (await service.store.forecasts.assessment(`c${i}`))?.forecasts[0].outcome,
      ),
    );
    expect(outcomes[4]).not.toBe('not-computed');
    const left = outcomes.filter((o) => o === 'not-computed').length;
    const { message } = await service.store.jobRuns.get(jobRunId);
    expect(message).toEqual(
      left === 0 ? '' : expect.stringMatching(new RegExp(`^${left} child(ren)? could not`)),
    );
    const page = await service.as('scheduler', { url: '/recall', headers: { accept: 'text/html' } });
    expect(page.body).toContain(message);
    for (const i of [0, 1, 2, 3, 4]) {
      const own = await service.as('clinician', { url: `/children/c${i}`, headers: { accept: 'text/html' } });
      expect(own.statusCode, `page of c${i}`).toBe(200);
    }
  }, 60_000);

  it.each([
    ['what-if', { measure: 'foot_length', sides: ['left'], lastUntil: [{ until: '2100-01-01', odds: 0.9 }] }],
    ['what-if', { measure: 'foot_length', sides: ['left'], lastUntil: [{ until: '9999-01-01', odds: 0.9 }] }],
    ['what-if', { measure: 'foot_length', sides: ['left'], castDate: '2207-01-01', allowancesMm: [5] }],
  ])('refuses a question that reaches too far: %s %j', async (_, payload) => {
    const answer = await service.as('clinician', {
      method: 'POST',
      url: '/api/children/c4/what-if',
      payload,
    });
    expect(answer.statusCode).toBe(422);
    expect(answer.json().accepted).toMatch(/\d{4}-\d{2}-\d{2} to \d{4}-\d{2}-\d{2}|between 1900 and 2199/);
  });

  it('answers the furthest question it takes', async () => {
    const answer = await service.as('clinician', {
      method: 'POST',
      url: '/api/children/c4/what-if',
      payload: {
        measure: 'foot_length',
        sides: ['left'],
        lastUntil: Array.from({ length: 20 }, () => ({ until: '2031-01-31', odds: 0.9 })),
      },
    });
    expect(answer.statusCode).toBe(200);
  });

  it('refuses a list for a month out of reach', async () => {
    const answer = await service.as('scheduler', {
      method: 'POST',
      url: '/api/recall-runs',
      payload: { month: '9999-01' },
    });
    expect(answer.statusCode).toBe(422);
  });
});
