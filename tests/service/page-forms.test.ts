/** What the pages post: a child's details by role and field, no lost update, nothing written twice, everything put right. */
import { randomUUID } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Role, systemActor } from '../../src/store/contract.js';
import { type TestService, testService, testToday } from './test-service.js';

describe('what the pages post', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService();
  });
  afterAll(() => service.stop());

  const stored = (id: string) => service.store.children.get(id, systemActor);
  const post = (role: Role, id: string, fields: Record<string, string | string[]>) =>
    send(role, `/children/${id}/edit`, fields);
  const send = (role: Role, url: string, fields: Record<string, string | string[]>) =>
    service.as(role, {
      method: 'POST',
      url,
      headers: { accept: 'text/html', 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams(
        Object.entries(fields).flatMap(([name, v]) => [v].flat().map((one) => [name, one])),
      ).toString(),
    });
  /** What a clinician's form sends when nothing was touched. */
  const untouched = async (id: string) => {
    const { value, version } = await stored(id);
    return {
      version: String(version),
      contact: value.contact,
      language: value.language,
      siblingGroup: '',
      name: value.name,
      birthDate: value.birthDate,
      sex: value.sex,
      gestationWeeks: '',
      affectedSide: value.affectedSide,
      walks: 'yes',
      conditions: value.conditions,
      status: value.status,
    };
  };

  it('an administrator takes the backup away by the own password; the log says so', async () => {
    const take = (role: Role, password: string) =>
      service.as(role, {
        method: 'POST',
        url: '/settings/backup',
        headers: { accept: 'text/html', 'content-type': 'application/x-www-form-urlencoded' },
        payload: new URLSearchParams({ password }).toString(),
      });
    expect((await take('clinician', service.passwords.clinician)).statusCode).toBe(403);
    const wrong = await take('administrator', 'not the password');
    expect(wrong.statusCode).toBe(422);
    expect(wrong.body).toContain('password is not right');
    const taken = await take('administrator', service.passwords.administrator);
    expect(taken.headers['content-disposition']).toContain('.jsonl.gz');
    const lines = gunzipSync(taken.rawPayload).toString().trim().split('\n');
    const { rows } = JSON.parse(lines.at(-1) ?? '');
    expect(lines).toHaveLength(rows + 2);
    expect(lines.some((l) => l.includes('"children"'))).toBe(true);
    const { items } = await service.store.audit.list({ action: 'export' }, { limit: 10 });
    expect(items.filter((r) => r.resource === 'backup')).toMatchObject([{ userName: 'administrator' }]);
  });

  it('takes the dates of growth hormone from a clinician, an end only after a start, and tells its caution', async () => {
    const hormone = async (growth_hormone_start: string, growth_hormone_end: string) =>
      post('clinician', 'c0', { ...(await untouched('c0')), growth_hormone_start, growth_hormone_end });
    const before = (await stored('c0')).value.extra;
    for (const [start, end] of [
      ['', '2026-01-01'],
      ['1900-01-01', ''],
      ['2026-02-01', '2026-01-01'],
    ] as const) {
      const refused = await hormone(start, end);
      expect(refused.statusCode).toBe(422);
      expect(refused.body).toContain('an end not before the start');
    }
    expect((await hormone('2026-01-05', '')).statusCode).toBe(303);
    expect((await stored('c0')).value.extra).toEqual({ ...before, growth_hormone_start: '2026-01-05' });
    const page = await service.as('clinician', { url: '/children/c0', headers: { accept: 'text/html' } });
    expect(page.body).toContain('Growth hormone: how fast is a guess');
    expect((await post('scheduler', 'c0', { growth_hormone_start: '' })).statusCode).not.toBe(303);
    expect((await hormone('', '')).statusCode).toBe(303);
    expect((await stored('c0')).value.extra).toEqual(before);
  });

  it('keeps everything when nothing is touched, version included', async () => {
    const before = await stored('c0');
    const answer = await post('clinician', 'c0', await untouched('c0'));
    expect(answer.statusCode, answer.body).toBe(303);
    expect(answer.headers.location).toBe('/children/c0?notice=child-saved');
    expect(await stored('c0')).toEqual(before);
  });

  it('a clinician changes all; what was not asked stays', async () => {
    const before = await stored('c1');
    const answer = await post('clinician', 'c1', {
      ...(await untouched('c1')),
      contact: 'grandmother, evenings',
      language: 'pt-BR',
      siblingGroup: 'the twins',
      transportDays: ['2', '4'],
      prefersHolidays: 'yes',
      insensateSkin: 'yes',
      latexAlert: 'yes',
      gestationWeeks: '31',
      conditions: ['cerebral-palsy', 'hemiplegia'],
      affectedSide: 'left',
      status: 'discharged',
    });
    expect(answer.statusCode, answer.body).toBe(303);
    const after = await stored('c1');
    expect(after.version).toBe(before.version + 1);
    expect(after.value).toEqual({
      ...before.value,
      contact: 'grandmother, evenings',
      language: 'pt-BR',
      siblingGroup: 'the twins',
      transportDays: [2, 4],
      prefersHolidays: true,
      insensateSkin: true,
      latexAlert: true,
      gestationWeeks: 31,
      conditions: ['cerebral-palsy', 'hemiplegia'],
      affectedSide: 'left',
      status: 'discharged',
    });
  });

  it('a scheduler changes how to reach a family, sees no diagnosis field, and may post no other', async () => {
    const page = await service.as('scheduler', {
      url: '/children/c2/edit',
      headers: { accept: 'text/html' },
    });
    for (const field of ['contact', 'language', 'siblingGroup', 'transportDays', 'prefersHolidays'])
      expect(page.body).toContain(`name="${field}"`);
    for (const field of ['conditions', 'birthDate', 'insensateSkin', 'status'])
      expect(page.body).not.toContain(`name="${field}"`);
    const { value, version } = await stored('c2');
    const answer = await post('scheduler', 'c2', {
      version: String(version),
      contact: 'new number',
      language: 'en',
      siblingGroup: '',
      transportDays: '5',
    });
    expect(answer.statusCode, answer.body).toBe(303);
    // The diagnosis a scheduler cannot see was not wiped by its form.
    expect((await stored('c2')).value).toEqual({ ...value, contact: 'new number', transportDays: [5] });
    const forged = await post('scheduler', 'c2', { version: String(version + 1), status: 'died' });
    expect(forged.statusCode).toBe(403);
    expect(forged.body).toContain('A scheduler may not change this');
    expect((await stored('c2')).value.status).toBe('active');
  });

  it('loses nobody’s change: a form from an older version is shown again beside what was stored meanwhile', async () => {
    const form = await untouched('c3');
    await service.store.children.change(
      'c3',
      { contact: 'changed by another' },
      '2026-06-15',
      null,
      systemActor,
    );
    const answer = await post('clinician', 'c3', { ...form, contact: 'mine' });
    expect(answer.statusCode).toBe(412);
    expect(answer.body).toContain('Somebody else saved this child');
    expect(answer.body).toContain('Stored meanwhile: changed by another');
    expect(answer.body).toMatch(/name="contact"[^>]*value="mine"/);
    expect((await stored('c3')).value.contact).toBe('changed by another');
    const version = /name="version" value="(\d+)"/.exec(answer.body)?.[1] ?? '';
    expect((await post('clinician', 'c3', { ...form, version, contact: 'mine' })).statusCode).toBe(303);
    expect((await stored('c3')).value.contact).toBe('mine');
  });

  it.each([
    ['birthDate', '2018-13-01', 'a calendar date as YYYY-MM-DD'],
    // The first reading of the invented child is of 2025-06-02.
    ['birthDate', '2025-06-03', 'not after the first reading or cast on record'],
    ['gestationWeeks', '21', 'whole weeks from 22 to 44'],
    ['gestationWeeks', '30.5', 'whole weeks from 22 to 44'],
    ['language', 'what they speak', 'a language code such as en, es or pt-BR'],
    ['contact', 'x'.repeat(401), 'at most 400 characters; these are 401'],
    ['transportDays', '8', '1 for Monday to 7 for Sunday'],
    ['sex', 'neither', 'male, female, unknown'],
    ['status', 'gone', 'active, moved-away, discharged, died'],
    ['conditions', 'unheard-of', 'cerebral-palsy, hemiplegia'],
  ])(
    'refuses %s %s, names the field and what is accepted, and saves nothing',
    async (field, value, accepted) => {
      const before = await stored('c4');
      const answer = await post('clinician', 'c4', {
        ...(await untouched('c4')),
        contact: 'typed too',
        [field]: value,
      });
      expect(answer.statusCode).toBe(422);
      expect(answer.body).toContain(accepted);
      expect(answer.body).toContain(`href="#${field}"`);
      expect(answer.body).toContain(`id="${field}-remark"`);
      if (field !== 'contact') expect(answer.body).toContain('value="typed too"');
      expect(await stored('c4')).toEqual(before);
    },
  );

  it('takes the same form sent twice for saved, not for somebody else’s change', async () => {
    const form = { ...(await untouched('c5')), contact: 'pressed twice' };
    expect((await post('clinician', 'c5', form)).statusCode).toBe(303);
    const { version } = await stored('c5');
    expect((await post('clinician', 'c5', form)).statusCode).toBe(303);
    expect((await stored('c5')).version).toBe(version);
  });

  it('refuses a form without a version', async () => {
    const answer = await post('clinician', 'c4', { contact: 'x' });
    expect(answer.statusCode).toBe(428);
  });

  // What lasting marks lead to: leaflet of NHS Fife, read as an excerpt; the rest common practice, no source.
  it('asks a family two questions; the answer is evidence, and lasting marks lead to stopping and ringing', async () => {
    const { familyLinks, familyQuestions } = service.store;
    const clinician = { userId: 'u', name: 'clinician', role: 'clinician' } as const;
    const link = (child: string) => familyLinks.create(child, '', 30, new Date(), clinician);
    const [own, other] = [await link('c4'), await link('c5')];
    const form = (role: Role | null, url: string, fields: Record<string, string>) =>
      service.as(role, {
        method: 'POST',
        url,
        headers: {
          accept: 'text/html',
          'accept-language': 'pl',
          'content-type': 'application/x-www-form-urlencoded',
        },
        payload: new URLSearchParams(fields).toString(),
      });
    const sheet = (token: string, language = 'pl') =>
      service.as(null, { url: `/family/${token}`, headers: { 'accept-language': language } });
    expect((await sheet(own.token)).body).not.toContain('name="question"');
    expect((await form('scheduler', '/children/c4/questions', { device: 'c4-d' })).statusCode).toBe(403);
    expect((await form('clinician', '/children/c4/questions', { device: 'c5-d' })).statusCode).toBe(404);
    expect((await form('clinician', '/children/c4/questions', { device: 'c4-d' })).statusCode).toBe(303);

    const page = (await sheet(own.token)).body;
    expect(page, 'the telephone’s language').toContain('lang="pl"');
    expect(page, 'and the link’s end').toContain('Ten link działa do');
    const question = /name="question" value="([^"]+)"/.exec(page)?.[1] ?? '';
    // Nobody decides on what no family has said yet.
    await expect(
      familyQuestions.decide(question, 'c4', 'accepted', new Date(), clinician),
    ).rejects.toMatchObject({ code: 'not-found' });
    const answer = { question, toes: 'less', marks: 'lasts', place: 'inner ankle', minutes: '40' };
    // Another child's link cannot answer, nor can half an answer or a forged link.
    expect((await form(null, `/family/${other.token}/answers`, answer)).statusCode).toBe(404);
    expect((await form(null, `/family/${own.token}x/answers`, answer)).statusCode).toBeGreaterThan(399);
    const half = await form(null, `/family/${own.token}/answers`, { question, toes: 'less', language: 'pl' });
    expect(half.statusCode).toBe(422);
    expect(half.body).toContain('Nic nie zostało wysłane');

    expect(page).toContain('ojczystym');
    const signed = { language: 'pl', name: 'A. Reader', profession: 'interpreter' };
    expect((await form('clinician', '/settings/languages', signed)).statusCode).toBe(403);
    expect((await form('administrator', '/settings/languages', { ...signed, name: '' })).statusCode).toBe(
      422,
    );
    expect((await form('administrator', '/settings/languages', signed)).statusCode).toBe(303);
    expect((await sheet(own.token)).body, 'the mark goes once a native reader has signed').not.toContain(
      'ojczystym',
    );

    const said = { toes: 'less', marks: 'lasts', place: '', minutes: null } as const;
    await expect(
      familyQuestions.answer(question, 'c5', said, new Date(), systemActor),
      'of another child',
    ).rejects.toMatchObject({ code: 'not-found' });
    const before = await service.store.children.record('c4', systemActor);
    const sent = await form(null, `/family/${own.token}/answers`, { ...answer, language: 'en' });
    expect(sent.statusCode).toBe(200);
    expect(sent.body).toContain('Stop wearing the left lower leg brace and call us today.');
    expect(await service.store.children.record('c4', systemActor), 'nothing changed by itself').toEqual(
      before,
    );
    expect((await form(null, `/family/${own.token}/answers`, answer)).statusCode, 'once').toBe(404);
    const late = { toes: 'less', marks: 'none', place: '', minutes: null } as const;
    await expect(
      familyQuestions.answer(question, 'c4', late, new Date(), systemActor),
      'two at once are one as well',
    ).rejects.toMatchObject({ code: 'not-found' });
    const nowIs = (status: 'moved-away' | 'active') =>
      service.store.children.change('c4', { status }, testToday, null, systemActor);
    await nowIs('moved-away');
    expect(await familyQuestions.waiting(systemActor), 'of nobody who moved away').toEqual([]);
    await nowIs('active');
    expect(await familyQuestions.waiting(systemActor)).toHaveLength(1);
    expect((await service.as('clinician', { url: '/today' })).body).toContain('inner ankle');
    expect((await service.as('scheduler', { url: '/recall' })).body).toContain('Ring now');

    expect(
      (await form('scheduler', `/children/c4/answers/${question}`, { decision: 'accepted' })).statusCode,
    ).toBe(403);
    expect(
      (await form('clinician', `/children/c5/answers/${question}`, { decision: 'accepted' })).statusCode,
    ).toBe(404);
    expect(
      (await form('clinician', `/children/c4/answers/${question}`, { decision: 'accepted' })).statusCode,
    ).toBe(303);
    const { skinChecks } = await service.store.children.record('c4', systemActor);
    expect(skinChecks.at(-1)).toMatchObject({
      deviceId: 'c4-d',
      state: 'lasts',
      minutes: 40,
      where: 'inner ankle',
      observer: 'family',
    });
    expect(await familyQuestions.waiting(systemActor)).toEqual([]);
    const { items } = await service.store.audit.list({ childId: 'c4' }, { limit: 50 });
    for (const action of ['ask', 'answer', 'accept']) expect(items.map((r) => r.action)).toContain(action);
    // Who was shown that an answer waits, by name and telephone.
    const shown = items.filter((r) => r.resource === 'family-answers' && r.action === 'list');
    expect(shown.map((r) => r.userName)).toEqual(expect.arrayContaining(['clinician', 'scheduler']));

    // A family sends one answer a minute: whoever sends many is stopped.
    let last = 0;
    for (let i = 0; i < 8; i++) last = (await form(null, `/family/${own.token}/answers`, answer)).statusCode;
    expect(last).toBe(429);
  });

  it('proposes no dimension to one who records an adjustment, and lets none be left out', async () => {
    const { body } = await service.as('clinician', {
      url: '/children/c0/devices/c0-d',
      headers: { accept: 'text/html' },
    });
    const [asked = ''] = /<select[^>]*id="adjusted-measure".*?<\/option>/s.exec(body) ?? [];
    expect(asked).toMatch(/<select[^>]* required/);
    expect(asked).toMatch(/<option value(="")? selected>choose|<option value(="")?>choose/);
  });

  it('a form sent twice, or by a double press, writes once and leads to the same place', async () => {
    const once = randomUUID();
    const visit = { once, date: '2026-01-20', unit: 'mm', 'stature.none': '1010', confirmed: 'yes' };
    const add = () => send('clinician', '/children/c2/visit', visit);
    const before = (await service.store.visits.list('c2', systemActor)).flatMap((v) => v.measurements).length;
    // Both at once, as two presses arrive; then again after a reload.
    const answers = [...(await Promise.all([add(), add()])), await add()];
    expect(answers.map((a) => a.headers.location)).toEqual(Array(3).fill('/children/c2?notice=visit-saved'));
    const after = (await service.store.visits.list('c2', systemActor)).flatMap((v) => v.measurements).length;
    expect(after).toBe(before + 1);
    // The same page with other words is another write.
    const other = await send('clinician', '/children/c2/visit', { ...visit, date: '2026-01-21' });
    expect(other.statusCode).toBe(303);
    expect((await service.store.visits.list('c2', systemActor))[0].date).toBe('2026-01-21');
    // Refused, nothing is kept under the token: mended, it is written.
    const wrong = { once: randomUUID(), 'stature.none': 'tall', date: '2026-01-22', unit: 'mm' };
    expect((await send('clinician', '/children/c2/visit', wrong)).statusCode).toBe(422);
    expect((await send('clinician', '/children/c2/visit', wrong)).statusCode).toBe(422);
  });

  it('an undo pressed twice takes one change back', async () => {
    const { devices } = await service.store.children.record('c3', systemActor);
    const { id } = devices[0];
    const version = async () => (await service.store.devices.get(id, systemActor)).version;
    for (const footplate of ['none', 'behind-toes'] as const)
      await service.store.devices.change(id, { footplate }, '2026-02-01', null, systemActor);
    const [at, url] = [await version(), `/children/c3/devices/${id}/undo`];
    const form = { once: randomUUID() };
    for (let press = 0; press < 2; press++) await send('clinician', url, form);
    expect(await version()).toBe(at + 1);
    expect((await service.store.devices.get(id, systemActor)).value.footplate).toBe('none');
  });

  it('the interface corrects and takes back readings, events, devices and days as the pages do, each once by its key', async () => {
    const call = (url: string, payload: object, headers: Record<string, string> = {}) =>
      service.as('clinician', { method: 'POST', url: `/api${url}`, payload, headers });
    const record = () => service.store.children.record('c4', systemActor);
    const device = (await record()).devices[0];
    const event = { kind: 'verdict', verdict: 'good', date: '2026-01-10', note: 'snug' };
    const judged = (await call(`/devices/${device.id}/events`, event)).json();
    const corrected = await call(`/events/${judged.id}/corrections`, {
      verdict: 'tight',
      reason: 'misheard',
    });
    expect(corrected.statusCode, corrected.body).toBe(201);
    // What is not named stays as it was.
    expect(corrected.json().event).toMatchObject({ verdict: 'tight', date: '2026-01-10', note: 'snug' });
    const key = { 'idempotency-key': randomUUID() };
    const back = () => call(`/events/${judged.id}/corrections/undo`, {}, key);
    const [first, again] = [await back(), await back()];
    expect(first.json()).toMatchObject({ revision: 3, event: { verdict: 'good' } });
    expect(again.json()).toEqual(first.json());
    const history = await service.as('clinician', {
      method: 'GET',
      url: `/api/devices/${device.id}/history`,
    });
    expect(
      history.json().events.filter((e: { event: { id: string } }) => e.event.id === judged.id),
    ).toHaveLength(3);

    await service.store.devices.change(
      device.id,
      { footplate: 'behind-toes' },
      '2026-02-01',
      null,
      systemActor,
    );
    const undone = await call(`/devices/${device.id}/undo`, {});
    expect(undone.json().footplate).toBe(device.footplate);
    expect(undone.headers.etag).toMatch(/^"\d+"$/);

    const [left, right] = ['left', 'right'].map((side) => ({
      measure: 'foot_length',
      side,
      value: side === 'left' ? 181 : 184,
    }));
    const added = await call('/children/c4/visits', { date: '2026-01-27', measurements: [left, right] });
    const moved = await call('/children/c4/visits/move', {
      from: '2026-01-27',
      to: '2026-01-28',
      reason: 'typed a day early',
    });
    expect(moved.json()).toEqual({ moved: 2 });
    const ids: string[] = added.json().items.map((m: { id: string }) => m.id);
    expect((await record()).measurements.filter((m) => ids.includes(m.id)).map((m) => m.date)).toEqual([
      '2026-01-28',
      '2026-01-28',
    ]);
    // Sides swapped in one action come back together, whichever is named.
    await service.store.transaction(async (tx) => {
      for (const [i, side] of (['right', 'left'] as const).entries())
        await tx.measurements.correct(ids[i], { side, reason: 'swapped' }, '2026-02-01', null, systemActor);
    });
    expect((await call(`/measurements/${ids[0]}/corrections/undo`, {})).statusCode).toBe(201);
    expect(
      (await record()).measurements
        .filter((m) => ids.includes(m.id))
        .map((m) => m.side)
        .toSorted(),
    ).toEqual(['left', 'right']);
    expect((await record()).measurements.find((m) => m.id === ids[1])).toMatchObject({
      side: 'right',
      value: 184,
    });
    const early = await call('/children/c4/visits/move', {
      from: '2026-01-28',
      to: '1990-01-01',
      reason: 'no',
    });
    expect(early.statusCode).toBe(422);
  });
});
