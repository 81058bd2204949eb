import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { childFields } from '../../src/records/child-fields.js';
import { type TestService, testService, testToday } from './test-service.js';

describe('the HTTP API', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService();
  });
  afterAll(() => service.stop());

  it('describes itself as OpenAPI 3.1, every /api route with a summary and who may use it', async () => {
    const { paths, openapi } = (await service.as(null, { url: '/openapi.json' })).json();
    expect(openapi).toBe('3.1.0');
    const operations = Object.values(paths).flatMap((p) => Object.values(p as object));
    expect(operations.length).toBeGreaterThan(45);
    for (const operation of operations) {
      expect(operation.summary).toBeTruthy();
      expect(operation.description).toMatch(/For: |Needs no sign-in/);
    }
  });

  it('tells each field of a record by the words of its form', async () => {
    const { paths } = (await service.as(null, { url: '/openapi.json' })).json();
    const body = (path: string, method: string) =>
      paths[path][method].requestBody.content['application/json'].schema.properties;
    for (const fields of [body('/api/children', 'post'), body('/api/children/{id}', 'patch')])
      for (const [name, { label }] of Object.entries(childFields))
        expect(fields[name].description, name).toContain(label);
    expect(body('/api/devices/{id}', 'patch').fittedDate.description).toContain('Fitted on');
    expect(body('/api/children/{id}/skin-checks', 'post').state.description).toContain('Skin under it');
  });

  it('signs in, says who it is, and signs out', async () => {
    const payload = { name: 'clinician', password: service.passwords.clinician };
    const wrong = await service.app.inject({
      method: 'POST',
      url: '/api/session',
      payload: { ...payload, password: 'x' },
    });
    expect(wrong.statusCode).toBe(401);
    expect(wrong.headers['content-type']).toContain('application/problem+json');
    const { token } = (await service.app.inject({ method: 'POST', url: '/api/session', payload })).json();
    const headers = { authorization: `Bearer ${token}` };
    expect((await service.app.inject({ url: '/api/session', headers })).json().user.role).toBe('clinician');
    expect((await service.app.inject({ method: 'DELETE', url: '/api/session', headers })).statusCode).toBe(
      204,
    );
    expect((await service.app.inject({ url: '/api/session', headers })).statusCode).toBe(401);
  });

  it('casts the next one: carried over, its job begun, worn when delivered, the old one asked about', async () => {
    const post = (url: string, payload: object) => service.as('clinician', { method: 'POST', url, payload });
    const [child] = (await service.as('clinician', { url: '/api/children' })).json().items;
    const old = (
      await post(`/api/children/${child.id}/devices`, {
        family: 'kafo',
        side: 'left',
        castDate: '2025-03-01',
        fittedDate: '2025-04-01',
        allowancesMm: { foot_length: 12 },
        // Of the old shell, as its maker stated it.
        limitsMm: { knee_height: 300 },
        extensionRangeMm: { knee_height: 24 },
      })
    ).json();
    expect(old.limitsMm).toEqual({ knee_height: 300 });
    const next = await post(`/api/devices/${old.id}/next`, { allowancesMm: { foot_length: 10 } });
    expect(next.statusCode, next.body).toBe(201);
    const { id } = next.json();
    expect(next.json()).toMatchObject({
      family: 'kafo',
      side: 'left',
      castDate: testToday,
      fittedDate: null,
      status: 'ordered',
      replaces: old.id,
      allowancesMm: { foot_length: 10 },
      extensionRangeMm: { knee_height: 24 },
    });
    expect(next.json().limitsMm).toEqual({});
    const jobs = async () => {
      const record = await service.as('clinician', { url: `/api/children/${child.id}/record` });
      return record.json().jobs.filter((j: { deviceId: string }) => j.deviceId === id);
    };
    expect(await jobs()).toMatchObject([{ status: 'in-progress', stages: { cast: testToday } }]);
    expect((await post(`/api/devices/${old.id}/next`, {})).statusCode).toBe(409);
    expect((await post(`/api/devices/${id}/next`, {})).statusCode).toBe(409);
    expect((await post(`/api/devices/${old.id}/delivery`, {})).statusCode).toBe(409);
    const early = await post(`/api/devices/${id}/delivery`, { date: '2026-01-31' });
    expect(early.statusCode).toBe(422);
    const fitted = await post(`/api/devices/${id}/delivery`, {});
    expect(fitted.json()).toMatchObject({
      device: { status: 'worn', fittedDate: testToday },
      stillWorn: { id: old.id, status: 'worn' },
    });
    expect(await jobs()).toMatchObject([{ status: 'fitted', stages: { fit: testToday } }]);
    const third = (await post(`/api/devices/${id}/next`, {})).json();
    const last = await post(`/api/devices/${third.id}/delivery`, { retireReplaced: 'outgrown' });
    expect(last.json().stillWorn).toBeNull();
    expect((await service.as('clinician', { url: `/api/devices/${id}` })).json().status).toBe('retired');
    const events = await service.as('clinician', { url: `/api/devices/${id}/events` });
    // Of one day in no order.
    expect(events.json().items).toContainEqual(
      expect.objectContaining({ kind: 'retired', endReason: 'outgrown' }),
    );
    const why = { date: testToday, kind: 'broken', endReason: 'skin' };
    expect((await post(`/api/devices/${third.id}/events`, why)).json().field).toBe('endReason');
  });

  it('does a clinic’s whole job: child, visit, device, forecast, chart, recall list, call, undo', async () => {
    const child = {
      id: 'new-1',
      name: 'Invented Newcomer',
      birthDate: '2019-05-04',
      sex: 'female',
      conditions: ['hemiplegia'],
    };
    const added = await service.as('clinician', { method: 'POST', url: '/api/children', payload: child });
    expect(added.statusCode).toBe(201);
    expect(added.headers.etag).toBe('"1"');
    for (const [date, value] of [
      ['2025-02-01', 165],
      ['2025-08-01', 172],
      ['2026-01-30', 178],
    ]) {
      const visit = await service.as('clinician', {
        method: 'POST',
        url: '/api/children/new-1/visits',
        payload: { date, measurements: [{ measure: 'foot_length', side: 'left', value }] },
      });
      expect(visit.statusCode, visit.body).toBe(201);
    }
    const device = await service.as('clinician', {
      method: 'POST',
      url: '/api/children/new-1/devices',
      payload: { family: 'solid-afo', side: 'left', castDate: '2025-08-01', fittedDate: '2025-08-22' },
    });
    expect(device.statusCode, device.body).toBe(201);
    const { forecasts, inputsHash } = (
      await service.as('clinician', { url: '/api/children/new-1/assessment' })
    ).json();
    expect(forecasts[0]).toMatchObject({ deviceId: device.json().id, today: testToday });
    expect(inputsHash).toMatch(/^[0-9a-f]{64}$/);
    const svg = await service.as('clinician', { url: '/api/children/new-1/charts/growth/foot_length' });
    expect(svg.headers['content-type']).toContain('image/svg+xml');
    expect(svg.body).toContain('<svg');
    const png = await service.as('clinician', {
      url: '/api/children/new-1/charts/timeline?format=png',
    });
    expect(png.rawPayload.subarray(1, 4).toString()).toBe('PNG');
    const spec = await service.as('clinician', {
      url: '/api/children/new-1/charts/growth/foot_length?format=json',
    });
    expect(spec.json().$schema).toContain('vega-lite');

    const whatIf = await service.as('clinician', {
      method: 'POST',
      url: '/api/children/new-1/what-if',
      payload: {
        measure: 'foot_length',
        sides: ['left'],
        allowancesMm: [5, 15],
        lastUntil: [{ until: '2027-02-01', odds: 0.9 }],
      },
    });
    expect(whatIf.statusCode, whatIf.body).toBe(200);
    const { lives, needed } = whatIf.json();
    expect(lives[0].p50 < lives[1].p50).toBe(true);
    expect(needed[0].allowanceMm).toBeGreaterThan(0);

    const started = await service.as('scheduler', { method: 'POST', url: '/api/recall-runs', payload: {} });
    expect(started.statusCode).toBe(202);
    expect(await service.jobEnded(started.json().jobRunId)).toBe('done');
    const run = (await service.as('scheduler', { url: '/api/recall-runs/latest' })).json();
    const { items } = (await service.as('scheduler', { url: `/api/recall-runs/${run.id}/entries` })).json();
    expect(items.length).toBeGreaterThan(0);
    for (const { entry } of items) {
      expect(new Date(entry.plannedWeek).getUTCDay(), 'a Monday').toBe(1);
      expect(entry.weekReason).toMatch(/week/);
    }
    expect(run.summary.levelling.weeks[0]).toMatchObject({ slots: expect.any(Number) });
    const page = await service.as('scheduler', { url: '/recall' });
    expect(page.body).toContain(items[0].entry.weekReason);
    const short = run.summary.levelling.weeks.some((w: { overtime: number }) => w.overtime > 0);
    expect(page.body.includes('places needed')).toBe(short);
    const url = `/api/recall-entries/${items[0].id}`;
    const unsaid = await service.as('scheduler', {
      method: 'PUT',
      url: `${url}/state`,
      payload: { state: 'called' },
    });
    expect(unsaid.statusCode).toBe(428);
    const called = await service.as('scheduler', {
      method: 'PUT',
      url: `${url}/state`,
      headers: { 'if-match': '"1"' },
      payload: { state: 'called', note: 'rings back' },
    });
    expect(called.json()).toMatchObject({ state: 'called', version: 2 });
    const late = await service.as('scheduler', {
      method: 'PUT',
      url: `${url}/state`,
      headers: { 'if-match': '"1"' },
      payload: { state: 'booked' },
    });
    expect(late.statusCode).toBe(412);
    const undone = await service.as('scheduler', { method: 'POST', url: `${url}/undo`, payload: {} });
    expect(undone.json().state).toBe('to-call');
  });

  it('carries a write out once however often it is repeated with its key', async () => {
    const once = () =>
      service.as('clinician', {
        method: 'POST',
        url: '/api/children/c1/measurements',
        headers: { 'idempotency-key': 'visit-77' },
        payload: { measure: 'foot_length', side: 'left', value: 188, date: '2026-01-20' },
      });
    const answers = await Promise.all([once(), once(), once()]);
    expect(new Set(answers.map((a) => a.json().id)).size).toBe(1);
    expect(answers.filter((a) => a.headers['idempotency-replayed']).length).toBe(2);
    const { items } = (await service.as('clinician', { url: '/api/children/c1/measurements' })).json();
    expect(items.filter((m: { value: number }) => m.value === 188)).toHaveLength(1);
    const other = await service.as('clinician', {
      method: 'POST',
      url: '/api/children/c1/measurements',
      headers: { 'idempotency-key': 'visit-77' },
      payload: { measure: 'foot_length', side: 'left', value: 150, date: '2026-01-20' },
    });
    expect(other.statusCode).toBe(422);
  });

  it('loses no update: a change to a version that is gone is refused', async () => {
    const { headers } = await service.as('clinician', { url: '/api/children/c2' });
    const change = (contact: string) =>
      service.as('scheduler', {
        method: 'PATCH',
        url: '/api/children/c2',
        headers: { 'if-match': String(headers.etag) },
        payload: { contact },
      });
    const [a, b] = await Promise.all([change('one'), change('two')]);
    expect([a.statusCode, b.statusCode].sort()).toEqual([200, 412]);
    expect((await service.as('clinician', { url: '/api/children/c2' })).json().conditions).toEqual([
      'cerebral-palsy',
    ]);
  });

  it('lets a scheduler change contact but no clinical field, and shows no diagnosis', async () => {
    const changed = (payload: object) =>
      service.as('scheduler', {
        method: 'PATCH',
        url: '/api/children/c3',
        headers: { 'if-match': '*' },
        payload,
      });
    const clinical = [{ insensateSkin: true }, { birthDate: '2018-04-01' }, { conditions: ['hemiplegia'] }];
    for (const field of clinical) expect((await changed(field)).statusCode, Object.keys(field)[0]).toBe(403);
    expect((await changed({ contact: 'ring the school' })).statusCode).toBe(200);
    expect((await service.as('scheduler', { url: '/api/children/c3' })).json().conditions).toEqual([]);
  });

  it('imports by dry run and commit: what was shown is what is taken in', async () => {
    const text =
      'id,name,birth_date,sex\nimp-1,Invented One,2019-01-02,female\nimp-2,Invented Two,2019-13-02,male\n';
    const dry = await service.as('administrator', {
      method: 'POST',
      url: '/api/imports',
      payload: { files: [{ name: 'children.csv', text }] },
    });
    expect(dry.statusCode, dry.body).toBe(201);
    const { id, plan } = dry.json();
    expect(plan.tables[0]).toMatchObject({ table: 'children', added: 1 });
    expect(plan.refused[0]).toContain('row 3');
    expect((await service.as('clinician', { url: '/api/children/imp-1' })).statusCode).toBe(404);
    const commit = await service.as('administrator', {
      method: 'POST',
      url: `/api/imports/${id}/commit`,
      payload: {},
    });
    expect(commit.statusCode, commit.body).toBe(202);
    expect(await service.jobEnded(commit.json().jobRunId)).toBe('done');
    expect((await service.as('clinician', { url: '/api/children/imp-1' })).json().name).toBe('Invented One');
    const again = await service.as('administrator', {
      method: 'POST',
      url: `/api/imports/${id}/commit`,
      payload: {},
    });
    expect(again.statusCode).toBe(409);
  });

  describe('a sheet as the clinic keeps it', () => {
    const post = (url: string, payload: object = {}) =>
      service.as('administrator', { method: 'POST', url, payload });
    const tried = async (text: string) =>
      (await post('/api/imports', { files: [{ name: 'list.csv', text }] })).json();
    const taken = async (id: string) =>
      expect(await service.jobEnded((await post(`/api/imports/${id}/commit`)).json().jobRunId)).toBe('done');
    const added = (plan: { tables: { table: string; added: number }[] }) =>
      Object.fromEntries(plan.tables.filter((t) => t.added > 0).map((t) => [t.table, t.added]));
    const head = 'Hosp No,Name,DOB,Date,Foot L mm,Orthosis,Side,Cast\n';
    const visit = (date: string, foot: number) =>
      `ask-1,Invented Ask,14/03/2018,${date},${foot},AFO,L,15/01/2025\n`;
    let second = '';

    it('is asked once; next month adds only what is new', async () => {
      const first = await tried(head + visit('15/01/2025', 175));
      expect(first.plan.questions.map((q: { id: string }) => q.id)).toEqual(['device:afo', 'fit:from-cast']);
      expect(added(first.plan)).toEqual({ children: 1, measurements: 1 });
      const wrong = await post(`/api/imports/${first.id}/answers`, {
        answers: [{ question: 'device:afo', answer: 'moon boot' }],
      });
      expect([wrong.statusCode, wrong.body]).toEqual([422, expect.stringContaining('articulated-afo')]);
      const answered = await post(`/api/imports/${first.id}/answers`, {
        answers: [
          { question: 'device:afo', answer: 'articulated-afo' },
          { sheet: first.plan.questions[1].sheet, question: 'fit:from-cast', answer: 'yes' },
        ],
      });
      expect(answered.statusCode, answered.body).toBe(200);
      expect(answered.json().plan.questions).toEqual([]);
      expect(added(answered.json().plan)).toEqual({ children: 1, measurements: 1, devices: 1 });
      await taken(first.id);
      const next = await tried(head + visit('15/01/2025', 175) + visit('16/06/2025', 181));
      expect(next.plan.questions).toEqual([]);
      expect(added(next.plan)).toEqual({ measurements: 1 });
      await taken(next.id);
      second = next.id;
    });

    it('keeps answers by the headings of the sheet, and forgets them when told', async () => {
      const sheet = (order: string[]) =>
        `${order.join(',')}\n${order.map((h) => ({ Name: 'Invented Ask', DOB: '14/03/2018', Date: '17/06/2025', Zz: '182' })[h]).join(',')}\n`;
      const first = await tried(sheet(['Name', 'DOB', 'Date', 'Zz']));
      const [question] = first.plan.questions;
      await post(`/api/imports/${first.id}/answers`, {
        answers: [{ sheet: question.sheet, question: question.id, answer: 'foot_length left mm' }],
      });
      const again = await tried(sheet(['Zz', 'Date', 'DOB', 'Name']));
      expect([again.plan.questions, added(again.plan)]).toEqual([[], { children: 1, measurements: 1 }]);
      expect(again.plan.notices[0]).toContain('is kept already as ask-1');
      const url = `/api/sheet-answers?sheet=${question.sheet}&question=${encodeURIComponent(question.id)}`;
      expect((await service.as('scheduler', { method: 'DELETE', url })).statusCode).toBe(403);
      expect((await service.as('clinician', { method: 'DELETE', url })).json()).toEqual({ removed: true });
      expect((await tried(sheet(['Name', 'DOB', 'Date', 'Zz']))).plan.questions).toHaveLength(1);
    });

    it('is taken back: what it added goes, what was built on stays and is told', async () => {
      expect((await post(`/api/imports/${second}/take-back`)).json()).toEqual({ removed: 1, stays: [] });
      expect((await post(`/api/imports/${second}/take-back`)).statusCode).toBe(409);
      const child = (await service.as('clinician', { url: '/api/children/ask-1' })).json();
      expect(child.name).toBe('Invented Ask');
      const fresh = await tried(
        head.concat(visit('15/01/2025', 175)).replaceAll('ask-1', 'ask-2').replaceAll('Ask', 'Back'),
      );
      await taken(fresh.id);
      const later = await tried(
        head
          .concat(visit('15/01/2025', 175), visit('16/06/2025', 181))
          .replaceAll('ask-1', 'ask-2')
          .replaceAll('Ask', 'Back'),
      );
      await taken(later.id);
      expect((await post(`/api/imports/${later.id}/take-back`)).json()).toEqual({ removed: 1, stays: [] });
      // Child, device and two readings: the one withdrawn above has two rows and is one record.
      expect((await post(`/api/imports/${fresh.id}/take-back`)).json()).toEqual({ removed: 4, stays: [] });
      expect((await service.as('clinician', { url: '/api/children/ask-2' })).statusCode).toBe(404);
      const worked = await tried(
        head.concat(visit('15/01/2025', 175)).replaceAll('ask-1', 'ask-2').replaceAll('Ask', 'Back'),
      );
      await taken(worked.id);
      const more = await tried(
        head.concat(visit('16/06/2025', 180)).replaceAll('ask-1', 'ask-2').replaceAll('Ask', 'Back'),
      );
      await taken(more.id);
      const { stays } = (await post(`/api/imports/${worked.id}/take-back`)).json();
      expect(stays).toEqual([{ why: 'children with records or work added since', count: 1 }]);
      expect((await service.as('clinician', { url: '/api/children/ask-2' })).statusCode).toBe(200);
    });

    it('is taken back whole after a later import that was taken back before it', async () => {
      const third = (day: string, foot: number) =>
        tried(head.concat(visit(day, foot)).replaceAll('ask-1', 'ask-3').replaceAll('Ask', 'Third'));
      const [one, two] = [await third('15/01/2025', 175), await third('16/06/2025', 180)];
      await taken(one.id);
      await taken(two.id);
      await post(`/api/imports/${two.id}/take-back`);
      expect((await post(`/api/imports/${one.id}/take-back`)).json().stays).toEqual([]);
      expect((await service.as('clinician', { url: '/api/children/ask-3' })).statusCode).toBe(404);
    });
  });

  it('exports what it holds; CSV comes back as no change', async () => {
    const files = [];
    for (const table of ['children', 'measurements', 'markers', 'devices', 'events', 'jobs', 'skin']) {
      const { body, headers } = await service.as('administrator', { url: `/api/exports/tables/${table}` });
      expect(headers['content-type']).toContain('text/csv');
      files.push({ name: `${table}.csv`, text: body });
    }
    const dry = await service.as('administrator', {
      method: 'POST',
      url: '/api/imports',
      payload: { files },
    });
    const { plan } = dry.json();
    expect(plan.refused).toEqual([]);
    for (const table of plan.tables) expect(table).toMatchObject({ added: 0, changed: 0 });
    const bundle = (await service.as('administrator', { url: '/api/exports/fhir' })).json();
    expect(bundle).toMatchObject({ resourceType: 'Bundle' });
  });

  it('pseudonymises: no id, name, birth date or true date, and no small group', async () => {
    const { body } = await service.as('administrator', { url: '/api/exports/pseudonymised' });
    for (const secret of ['Invented', '2018-03-01', 'c0-', '"c0"', '17,8', 'call c0'])
      expect(body).not.toContain(secret);
    const all = JSON.parse(body);
    const groups = new Map<string, number>();
    for (const c of all.children) {
      const key = `${c.sex} ${c.condition}`;
      groups.set(key, (groups.get(key) ?? 0) + 1);
    }
    for (const n of groups.values()) expect(n).toBeGreaterThanOrEqual(5);
  });

  it('gives a calendar feed by its own address, without names, until the account changes', async () => {
    const { path } = (
      await service.as('scheduler', { method: 'POST', url: '/api/calendar-feed', payload: {} })
    ).json();
    const feed = await service.app.inject({ url: path });
    expect(feed.body).toContain('BEGIN:VCALENDAR');
    expect(feed.body).not.toContain('Invented');
    expect((await service.app.inject({ url: path.replace('.ics', 'x.ics') })).statusCode).toBe(403);
  });

  it('protects writes by cookie with a CSRF token, and those from other sites', async () => {
    const page = await service.app.inject({
      method: 'POST',
      url: '/sign-in',
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      payload: `name=clinician&password=${encodeURIComponent(service.passwords.clinician)}`,
    });
    const cookie = String(page.headers['set-cookie']).split(';')[0];
    expect(String(page.headers['set-cookie'])).toMatch(/HttpOnly.*SameSite=Lax/i);
    const { csrfToken, user } = (
      await service.app.inject({ url: '/api/session', headers: { cookie } })
    ).json();
    expect(user.name).toBe('clinician');
    const add = (headers: Record<string, string>) =>
      service.app.inject({
        method: 'POST',
        url: '/api/children/c4/measurements',
        headers: { cookie, ...headers },
        payload: { measure: 'foot_length', side: 'left', value: 191, date: '2026-01-21' },
      });
    expect((await add({})).statusCode).toBe(403);
    expect((await add({ 'x-csrf-token': 'guess' })).statusCode).toBe(403);
    expect((await add({ authorization: 'Basic eDp5' })).statusCode, 'a header is no token').toBe(403);
    expect((await add({ 'x-csrf-token': csrfToken, 'sec-fetch-site': 'cross-site' })).statusCode).toBe(403);
    expect((await add({ 'x-csrf-token': csrfToken })).statusCode).toBe(201);
    // Whatever the method: each of these is a clinician's by its token.
    const writes = [
      ['PATCH', '/api/children/c4'],
      ['PUT', '/api/workshop-jobs/c4-j'],
      ['DELETE', '/api/family-links/none'],
    ] as const;
    for (const [method, url] of writes) {
      const answer = await service.app.inject({
        method,
        url,
        headers: { cookie, 'if-match': '*' },
        payload: {},
      });
      expect([answer.statusCode, answer.json().detail], method).toEqual([
        403,
        expect.stringContaining('CSRF'),
      ]);
    }
    const out = { cookie, 'x-csrf-token': csrfToken };
    const left = await service.app.inject({ method: 'DELETE', url: '/api/session', headers: out });
    expect(left.statusCode).toBe(204);
    expect((await service.app.inject({ url: '/api/session', headers: { cookie } })).statusCode).toBe(401);
  });

  it('takes no id longer than an id can be', async () =>
    expect((await service.as('clinician', { url: `/api/children/${'c'.repeat(81)}` })).statusCode).toBe(422));

  it('answers with security headers and keeps records out of caches', async () => {
    const { headers } = await service.as('clinician', { url: '/api/children/c0' });
    const policy = String(headers['content-security-policy']).split(';');
    for (const rule of ['default-src', 'script-src', 'form-action'])
      expect(policy).toContain(`${rule} 'self'`);
    expect(policy).toEqual(expect.arrayContaining(["frame-ancestors 'none'", "object-src 'none'"]));
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['referrer-policy']).toBe('same-origin');
    expect(headers['cache-control']).toBe('no-store');
  });

  it('ends a closed account at once', async () => {
    const user = await service.store.users.create(
      { name: 'leaver', role: 'clinician', password: 'a long password indeed' },
      { userId: 's', name: 's', role: 'system' },
    );
    const token = await service.store.accessTokens.create(user.id, new Date(Date.now() + 60_000));
    const ask = () =>
      service.app.inject({ url: '/api/children', headers: { authorization: `Bearer ${token}` } });
    expect((await ask()).statusCode).toBe(200);
    await service.as('administrator', {
      method: 'PATCH',
      url: `/api/users/${user.id}`,
      headers: { 'if-match': '"1"' },
      payload: { disabled: true },
    });
    expect((await ask()).statusCode).toBe(401);
  });

  it('is alive, ready and measured, without identifiers', async () => {
    expect((await service.app.inject('/health')).json()).toEqual({ status: 'alive' });
    expect((await service.app.inject('/ready')).json()).toEqual({ status: 'ready' });
    const { body } = await service.app.inject('/metrics');
    expect(body).toContain('route="/api/children/:id"');
    expect(body).not.toContain('c0');
  });
});
