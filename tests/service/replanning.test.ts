import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { weekStart } from '../../src/recall/decide/calendar.js';
import { addDaysIso } from '../../src/records/dates.js';
import { calendarOf } from '../../src/service/calendar-of.js';
import { type RecallRow, systemActor } from '../../src/store/contract.js';
import { type TestService, testService, testToday } from './test-service.js';

// What the clinic expects of a plan made again: common practice, no source.
describe('a recall list made again', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService({}, 10);
  }, 60_000);
  afterAll(() => service.stop());

  const makeList = async (): Promise<Map<string, RecallRow>> => {
    const started = await service.as('scheduler', { method: 'POST', url: '/api/recall-runs', payload: {} });
    expect(await service.jobEnded(started.json().jobRunId)).toBe('done');
    const { id } = (await service.as('scheduler', { url: '/api/recall-runs/latest' })).json();
    const { items } = (await service.as('scheduler', { url: `/api/recall-runs/${id}/entries` })).json();
    return new Map(items.map((r: RecallRow) => [r.childId, r]));
  };
  const say = async (row: RecallRow, payload: object) => {
    const answer = await service.as('scheduler', {
      method: 'PUT',
      url: `/api/recall-entries/${row.id}/state`,
      headers: { 'if-match': `"${row.version}"` },
      payload,
    });
    expect(answer.statusCode, answer.body).toBe(200);
  };
  const capacity = async (payload: object) => {
    const { headers } = await service.as('scheduler', { url: '/api/capacity' });
    return service.as('scheduler', {
      method: 'PATCH',
      url: '/api/capacity',
      headers: { 'if-match': headers.etag as string },
      payload,
    });
  };

  it('keeps what was agreed, moves who must move and nobody else', async () => {
    expect((await capacity({ castingSlotsPerWeek: 3 })).statusCode).toBe(200);
    const first = await makeList();
    expect(first.size).toBe(10);
    const weeks = [...new Set([...first.values()].map((r) => r.entry.plannedWeek!))].sort();
    expect(weeks.length, 'more children than one week has slots').toBeGreaterThan(2);

    const same = await makeList();
    for (const [child, row] of same) expect(row.entry.plannedWeek).toBe(first.get(child)!.entry.plannedWeek);

    const inSecondWeek = [...same.values()].filter((r) => r.entry.plannedWeek === weeks[1]);
    const [declines, notBrought, books] = inSecondWeek;
    await say(declines, { state: 'declined', note: 'exam week' });
    await say(notBrought, { state: 'did-not-come' });
    const later = addDaysIso(weeks[1], 15);
    await say(books, { state: 'booked', appointment: later });
    const page = await service.as('scheduler', { url: '/recall' });
    expect(page.body).toContain('2 children need another week');

    const third = await makeList();
    const afterwards = (row: RecallRow) => third.get(row.childId)!;
    expect(afterwards(declines)).toMatchObject({ state: 'to-call', stateNote: 'exam week' });
    expect(afterwards(declines).entry.plannedWeek).not.toBe(weeks[1]);
    expect(afterwards(declines).entry.weekReason).toContain('The family could not come');
    expect(afterwards(notBrought).entry.plannedWeek).not.toBe(weeks[1]);
    expect(afterwards(notBrought).entry.weekReason).toContain('Not brought');
    // A Friday that is past, and a Tuesday more than half a year ahead.
    for (const appointment of [addDaysIso(testToday, -2), addDaysIso(testToday, 184)]) {
      const refused = await service.as('scheduler', {
        method: 'PUT',
        url: `/api/recall-entries/${afterwards(books).id}/state`,
        headers: { 'if-match': '*' },
        payload: { state: 'booked', appointment },
      });
      expect(refused.statusCode, appointment).toBe(422);
      expect(refused.json()).toMatchObject({ field: 'appointment' });
    }
    const list = await service.as('scheduler', {
      method: 'POST',
      url: `/recall/entries/${afterwards(books).id}/state`,
      headers: { accept: 'text/html', 'content-type': 'application/x-www-form-urlencoded' },
      payload: `state=booked&appointment=${addDaysIso(testToday, 184)}&note=after+school&back=state%3Dopen`,
    });
    expect(list.statusCode).toBe(422);
    expect(list.body).toMatch(/: [\d-]+ is more than half a year ahead\. Nothing was saved/);
    expect(list.body, 'the list keeps its filters').toMatch(/<option value="open" selected/);
    expect(list.body.match(/<details open[^>]*><summary>Day, note/g), 'one row stands open').toHaveLength(1);
    expect(list.body).toContain('value="after school"');
    expect(list.body).toContain(`value="${addDaysIso(testToday, 184)}"`);
    expect(afterwards(books)).toMatchObject({ state: 'booked', appointment: later });
    expect(afterwards(books).entry.plannedWeek).toBe(weekStart(later));
    const untouched = [...same.values()].filter((r) => ![declines, notBrought, books].includes(r));
    const moved = untouched.filter((r) => afterwards(r).entry.plannedWeek !== r.entry.plannedWeek);
    expect(moved.length).toBeLessThanOrEqual(3);

    // The clinic shuts on the booked day: the appointment falls, the family is rung again.
    expect((await capacity({ closures: [later] })).statusCode).toBe(200);
    const fourth = await makeList();
    expect(fourth.get(books.childId)).toMatchObject({ state: 'to-call', appointment: null });
    expect(fourth.get(books.childId)!.entry.weekReason).toContain('The clinic cancelled');
    const bookable = (appointment: string) =>
      service.as('scheduler', {
        method: 'PUT',
        url: `/api/recall-entries/${fourth.get(books.childId)!.id}/state`,
        headers: { 'if-match': '*' },
        payload: { state: 'booked', appointment },
      });
    expect((await bookable(later)).json()).toMatchObject({ field: 'appointment', code: 'invalid-value' });
    // Weeks refused before are still not offered.
    expect(fourth.get(declines.childId)!.entry.plannedWeek).not.toBe(weeks[1]);
  }, 120_000);

  it('a reading that is asked about puts its own child’s cast off by no day, and leaves the others where they are', async () => {
    const before = await makeList();
    const castBy = (row: RecallRow) => row.entry.castBy!;
    const [grown] = [...before.values()].filter((r) => r.state === 'to-call');
    const readings = (['left', 'right'] as const).map((side) => ({
      measure: 'foot_length',
      side,
      value: 178,
    }));
    const answer = await service.as('clinician', {
      method: 'POST',
      url: `/api/children/${grown.childId}/visits`,
      headers: { 'idempotency-key': 'second-tape' },
      payload: { date: testToday, measurements: readings },
    });
    expect(answer.statusCode, answer.body).toBe(201);
    const later = await makeList();
    // Six millimetres less than the last reading: it is taken again before anything, and the cast stays as due as it was.
    const now = later.get(grown.childId)!;
    expect([now.entry.action, castBy(now)]).toEqual(['measure', castBy(grown)]);
    const others = [...before.values()].filter((r) => r.childId !== grown.childId);
    const moved = others.filter((r) => later.get(r.childId)!.entry.plannedWeek !== r.entry.plannedWeek);
    expect(moved.length).toBeLessThanOrEqual(1);
  }, 60_000);

  it('plans each child with its own clinician, and says when the workshop is too small', async () => {
    const named = await capacity({
      closures: [],
      clinicians: [
        { name: 'A', slotsPerWeek: 0, slotsByWeekday: [{ weekday: 2, slots: 3 }], away: [] },
        { name: 'B', slotsPerWeek: 6, slotsByWeekday: [], away: [] },
      ],
      workshop: [{ families: ['solid-afo'], jobsPerWeek: 1 }],
    });
    expect(named.statusCode, named.body).toBe(200);
    const child = await service.as('scheduler', { url: '/api/children/c1' });
    const patched = await service.as('scheduler', {
      method: 'PATCH',
      url: '/api/children/c1',
      headers: { 'if-match': child.headers.etag as string },
      payload: { clinician: 'A' },
    });
    expect(patched.statusCode, patched.body).toBe(200);
    const rows = await makeList();
    expect(rows.get('c1')!.entry).toMatchObject({ plannedClinician: 'A', plannedWeekday: 2 });
    const perWeek = new Map<string, number>();
    // A visit that measures first is a job too where a cast stands behind it.
    const isJob = ({ action, castBy }: RecallRow['entry']) =>
      action === 'cast' || (action === 'measure' && castBy !== null);
    for (const { entry } of rows.values())
      if (isJob(entry) && entry.plannedWeek)
        perWeek.set(entry.plannedWeek, (perWeek.get(entry.plannedWeek) ?? 0) + 1);
    const run = (await service.as('scheduler', { url: '/api/recall-runs/latest' })).json();
    for (const [week, casts] of perWeek) {
      const over = run.summary.levelling.weeks.find((w: { week: string }) => w.week === week).workshop;
      if (casts > 1) expect(over, week).toMatchObject([{ families: ['solid-afo'], limit: 1, jobs: casts }]);
      else expect(over).toEqual([]);
    }
  }, 60_000);

  it('refuses what cannot be, by field', async () => {
    const answer = await capacity({ workshop: [{ families: ['boot'], jobsPerWeek: 2 }] });
    expect(answer.statusCode).toBe(422);
    expect(answer.body).toContain('workshop');
    const twice = await capacity({
      clinicians: [
        { name: 'A', slotsPerWeek: 1 },
        { name: 'A', slotsPerWeek: 2 },
      ],
    });
    expect(twice.body).toContain('each name once');
  });

  it('says when a family that was left a message is rung again', async () => {
    const [row] = (await makeList()).values();
    const list = async () => (await service.as('scheduler', { url: '/recall' })).body;
    expect(await list()).not.toContain('Ring again on');
    await say(row, { state: 'left-message' });
    expect(await list()).toContain('Ring again on');
  });

  it('counts who must be seen now until that is done, beside the places of today and the next working day', async () => {
    const mark = { childId: 'c1', deviceId: 'c1-d', date: testToday, state: 'open', where: 'heel' } as const;
    await service.store.skinChecks.add(mark as never, testToday, systemActor);
    const row = (await makeList()).get('c1')!;
    expect(row.entry.action).toBe('see-now');
    const seeNow = async () =>
      (await service.as('scheduler', { url: `/api/recall-runs/${row.runId}/entries` })).json().seeNow;
    expect(await seeNow()).toMatchObject({ wanted: 1 });
    await say(row, { state: 'done' });
    expect(await seeNow()).toMatchObject({ wanted: 0 });
  });

  it('writes to nobody who declined, has a day or whose child died, and keeps all three apart in the calendar', async () => {
    const [declined, booked, died, rest] = (await makeList()).values();
    await say(declined, { state: 'declined' });
    await say(booked, { state: 'booked', appointment: addDaysIso(testToday, 8) });
    await service.store.children.change(died.childId, { status: 'died' }, testToday, null, systemActor);
    const letters = (await service.as('scheduler', { url: '/recall/letters' })).body;
    const named = [declined, booked, died, rest].filter((r) => letters.includes(r.childName));
    expect(named).toEqual([rest]);
    const run = (await service.store.recall.inUse())[0];
    const rows = await service.store.recall.entries(run.id, {}, systemActor);
    const due = rows.filter((r) => r.list !== 'open');
    expect(due.map((r) => r.id)).toContain(declined.id);
    expect(due.map((r) => r.id)).not.toContain(died.id);
    const calendar = (await service.as('scheduler', { url: '/recall/calendar.ics' })).body;
    const events = calendar.match(/SUMMARY:.*/g) ?? [];
    expect(events.filter((e) => e === 'SUMMARY:Clinic appointment')).toHaveLength(1);
    // All that is due but the one that was declined.
    expect(events).toHaveLength(due.length - 1);
    // Off the list, who could fill a slot is no appointment.
    const toCall = due.find((r) => r.state === 'to-call')!;
    for (const list of ['due', 'open'] as const)
      expect((await calendarOf([{ ...toCall, list }], service.deps)).includes('BEGIN:VEVENT'), list).toBe(
        list === 'due',
      );
    await service.store.children.change(died.childId, { status: 'active' }, testToday, null, systemActor);
  });

  it('a family that moved away takes the child off every list, and undo puts it on again', async () => {
    const [row] = (await makeList()).values();
    await say(row, { state: 'moved-away' });
    const status = async () => (await service.store.children.get(row.childId, systemActor)).value.status;
    expect(await status()).toBe('moved-away');
    const undo = await service.as('scheduler', {
      method: 'POST',
      url: `/api/recall-entries/${row.id}/undo`,
    });
    expect(undo.statusCode, undo.body).toBe(200);
    expect(await status()).toBe('active');
  });
});
