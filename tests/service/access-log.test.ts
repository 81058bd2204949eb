import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';
import { routeRoles } from './route-roles.js';
import { type TestService, testService } from './test-service.js';

const CHILD = 'c0';
const roleOf: Record<string, Role> = { c: 'clinician', s: 'scheduler', a: 'administrator', u: 'auditor' };
const asked = Object.entries(routeRoles)
  .filter(([route, roles]) => route.startsWith('GET ') && roles !== 'public')
  .flatMap(([route, roles]) => [...roles].map((letter) => [route.slice(4), roleOf[letter]] as const));
/** Routes whose answer is of children though it names none. */
const ofChildren = new Set(['/api/exports/pseudonymised', '/recall/calendar.ics']);

describe('who saw this child?', () => {
  let service: TestService;
  let ids: Record<string, string>;
  const log = async (filter = {}) =>
    (await service.store.audit.list({ childId: CHILD, ...filter }, { limit: 500 })).items;
  const newest = async () => (await service.store.audit.list({ childId: CHILD }, { limit: 1 })).items;

  beforeAll(async () => {
    service = await testService({}, 3);
    const run = await service.as('clinician', { method: 'POST', url: '/api/recall-runs', payload: {} });
    expect(await service.jobEnded(run.json().jobRunId)).toBe('done');
    const latest = (await service.store.recall.latestRun())?.id ?? '';
    const actor = { userId: 'test', name: 'test', role: 'system' } as const;
    const entry = (await service.store.recall.entries(latest, {}, actor)).find(
      (row) => row.childId === CHILD,
    );
    const sent = await service.as('administrator', {
      method: 'POST',
      url: '/api/imports',
      payload: { files: [{ name: 'children.csv', text: `id,birth_date,sex\n${CHILD},2018-03-01,male\n` }] },
    });
    ids = {
      '/api/measurements/:id': `${CHILD}-m0left`,
      '/api/devices/:id': `${CHILD}-d`,
      '/api/recall-runs/:id': latest,
      '/api/recall-entries/:id': entry?.id ?? 'none',
      '/api/imports/:id': sent.json().id,
      '/api/exports/tables/:table': 'children',
    };
  }, 120_000);
  afterAll(() => service.stop());

  const urlOf = (pattern: string) => {
    const [start = '', id = CHILD] = Object.entries(ids).find(([prefix]) => pattern.startsWith(prefix)) ?? [];
    return (start === '' ? pattern : pattern.replace(start, start.replace(/:\w+/, id)))
      .replace(':measure', 'foot_length')
      .replace(':device', `${CHILD}-d`)
      .replace(/:\w+/g, CHILD);
  };

  it.each(asked)('%s as %s leaves a row where it shows the child', async (pattern, role) => {
    const [before] = await newest();
    const answer = await service.as(role, { url: `${urlOf(pattern)}`, headers: { accept: 'text/html' } });
    if (answer.statusCode !== 200) return;
    const shows = new RegExp(`\\b${CHILD}\\b`).test(answer.body) || ofChildren.has(pattern);
    if (!shows) return;
    const [row] = await newest();
    expect(row?.id, `${pattern} showed ${CHILD} to ${role}`).not.toBe(before?.id);
    expect(row).toMatchObject({ userName: role });
  });

  it('most routes of children were asked with success, so that the check above sees something', async () => {
    const patterns = asked
      .filter(([pattern]) => pattern.includes(':id'))
      .map(([pattern, role]) => [urlOf(pattern), role] as const);
    const answers = await Promise.all(patterns.map(([url, role]) => service.as(role, { url })));
    expect(answers.filter((a) => a.statusCode === 200).length / answers.length).toBeGreaterThan(0.8);
  });

  it('finds lists, letters, calendars, exports, dry runs, runs and the log itself by the child', async () => {
    for (const [role, url] of [
      ['scheduler', '/children'],
      ['scheduler', '/recall/letters'],
      ['scheduler', '/recall/list.csv'],
      ['scheduler', '/recall/calendar.ics'],
      ['administrator', '/api/exports/fhir'],
      ['administrator', '/api/exports/tables/measurements'],
      ['auditor', `/access-log?childId=${CHILD}`],
      ['auditor', `/api/audit?childId=${CHILD}`],
    ] as const)
      expect((await service.as(role, { url })).statusCode, url).toBe(200);
    const feed = await service.as('scheduler', { method: 'POST', url: '/api/calendar-feed', payload: {} });
    expect((await service.as(null, { url: feed.json().path })).statusCode).toBe(200);
    const seen = new Set((await log()).map((row) => `${row.action} ${row.resource}`));
    for (const what of [
      'list children',
      'list recall-entries',
      'export recall/letters',
      'export recall/list.csv',
      'export recall/calendar.ics',
      'export calendar-feed',
      'export fhir',
      'export measurements.csv',
      'create import',
      'plan recall-run',
      'import caseload',
      'list audit',
    ])
      expect(seen).toContain(what);
    const starts = await service.store.audit.list({ action: 'start' }, { limit: 9 });
    expect(starts.items[0]).toMatchObject({ resource: 'recall-run', userName: 'clinician' });
  });

  it('who asks for what is not for the role leaves a row of it, by the route and whatever is in the address', async () => {
    for (const url of [`/children/${CHILD}/visit`, '/api/users'])
      expect((await service.as('scheduler', { url })).statusCode, url).toBe(403);
    const { items } = await service.store.audit.list({ action: 'refused' }, { limit: 2 });
    expect(items.map((row) => [row.userName, row.resource])).toEqual([
      ['scheduler', 'GET /api/users'],
      ['scheduler', 'GET /children/:id/visit'],
    ]);
  });

  it('does not find a child that a list did not show', async () => {
    await service.as('scheduler', { url: '/children?text=c1' });
    const [row] = (await service.store.audit.list({ action: 'list' }, { limit: 1 })).items;
    expect(row).toMatchObject({ resource: 'children', childrenShown: 1 });
    expect((await log()).map(({ id }) => id)).not.toContain(row.id);
  });

  it('the log of a child says in its page how many others a row showed', async () => {
    const { body } = await service.as('auditor', { url: `/access-log?childId=${CHILD}` });
    expect(body).toContain('3 children');
  });

  it.each(['json', 'fhir'])(
    'the export of one child as %s hands an administrator no more than the page',
    async (format) => {
      const url = `/api/children/${CHILD}/export?format=${format}`;
      const mine = (await service.as('clinician', { url })).body;
      const theirs = (await service.as('administrator', { url })).body;
      expect(mine).toContain('cerebral-palsy');
      for (const hidden of ['cerebral-palsy', 'bone-age', '"corrections":[', '"suggestions"'])
        expect(theirs).not.toContain(hidden);
      expect(theirs).toContain(CHILD);
    },
  );
});

describe('rows of the log', () => {
  let service: TestService;
  let clinic: pg.Client;
  let superuser: pg.Client;
  beforeAll(async () => {
    service = await testService({}, 1);
    // A role as a hospital gives one: it owns its database, it is no superuser.
    const admin = new pg.Client(service.database.url);
    await admin.connect();
    const url = new URL(service.database.url);
    // Both are of the whole server: named after this database, they can be made again.
    const own = `${url.pathname.slice(1)}_clinic`;
    await admin.query(`create role ${own} login password 'of the test only'`);
    await admin.query(`create database ${own} owner ${own}`);
    await admin.end();
    url.pathname = `/${own}`;
    superuser = new pg.Client(url.href);
    Object.assign(url, { username: own, password: 'of the test only' });
    const store = await openStore(url.href);
    await store.audit.record({ userId: 'x', name: 'x', role: 'system' }, 'read', 'child', { childId: 'c0' });
    await store.close();
    clinic = new pg.Client(url.href);
    await clinic.connect();
    await superuser.connect();
  }, 120_000);
  afterAll(async () => {
    await clinic.end();
    await superuser.end();
    await service.stop();
  });

  const attempts = ['update audit set user_name = user_name', 'delete from audit', 'truncate audit'];

  it.each(attempts)('are not changed by the service’s own role: %s', async (attempt) => {
    await expect(clinic.query(attempt)).rejects.toMatchObject({ code: '42501' });
  });

  it.each(attempts)('nor by a superuser, where the embedded database has only one: %s', async (attempt) => {
    await expect(superuser.query(attempt)).rejects.toMatchObject({ code: '23001' });
  });

  it('are still there, and more are written', async () => {
    expect((await clinic.query('select count(*)::int as n from audit')).rows[0].n).toBe(1);
  });
});
