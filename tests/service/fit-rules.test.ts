import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../src/commands/assess.js';
import { addDaysIso, daysBetween } from '../../src/records/dates.js';
import { clinicRules } from '../../src/rules/clinic-rules.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { assessor } from '../../src/service/assessor.js';
import { forecastPart } from '../../src/service/jobs/forecast-job.js';
import { systemActor } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';
import { exampleCaseload } from '../store/example-children.js';
import { type TestService, testService, testToday } from './test-service.js';

const foot = { family: 'solid-afo', measure: 'foot_length', figure: 'allowanceMm' };
const reason = 'audit of our last 40 reviews';

describe('the clinic’s own fit limits', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService();
  });
  afterAll(() => service.stop());

  const read = () => service.as('scheduler', { url: '/api/fit-rules' });
  const change = (changes: unknown, headers: Record<string, string> = { 'if-match': '*' }) =>
    service.as('clinician', { method: 'PATCH', url: '/api/fit-rules', headers, payload: { changes } });
  const footFigure = (body: { items: { family: string; dimensions: never[] }[] }) => {
    const family = body.items.find((f) => f.family === 'solid-afo');
    const dimensions = family?.dimensions as unknown as { measure: string; figures: { figure: string }[] }[];
    return dimensions
      .find((d) => d.measure === 'foot_length')
      ?.figures.find((f) => f.figure === 'allowanceMm');
  };
  /** Until no run of forecasts is under way, those that follow another included. */
  const idle = async () => {
    for (;;) {
      const [run] = await service.store.jobRuns.latest('forecasts');
      await service.jobEnded(run.id);
      if ((await service.store.jobRuns.latest('forecasts'))[0].id === run.id) return;
    }
  };
  const forecast = async (child = 'c0') => {
    const { forecasts, inputsHash } = (
      await service.as('clinician', { url: `/api/children/${child}/assessment` })
    ).json();
    return { ...forecasts[0], inputsHash };
  };

  it('are shown beside the shipped ones, with what may be set and how many devices in use it touches', async () => {
    const answer = await read();
    expect(answer.headers.etag).toBe('"0"');
    expect(footFigure(answer.json())).toMatchObject({
      mm: 8,
      shippedMm: 8,
      shippedSource: expect.stringContaining('common practice'),
      clinic: null,
      lowestMm: 2,
      highestMm: 32,
      devicesInUse: 6,
    });
  });

  it('move a device’s forecast, the stored list by the job and back again, all by the interface alone', async () => {
    const before = await forecast();
    expect(before.room[0].allowanceMm).toBe(8);
    const changed = await change([{ ...foot, mm: 12, reason }], { 'if-match': '"0"' });
    expect(changed.statusCode, changed.body).toBe(200);
    expect(changed.headers.etag).toBe('"1"');
    expect(footFigure(changed.json())).toMatchObject({
      mm: 12,
      shippedMm: 8,
      clinic: { mm: 12, reason, by: 'clinician' },
    });
    // The worker: nobody has opened these children since.
    expect(await service.jobEnded(changed.json().jobRunId)).toBe('done');
    const stored = (await service.store.forecasts.assessment('c3'))!;
    expect(stored.forecasts[0].room[0].allowanceMm).toBe(12);

    const after = await forecast();
    expect(after.room[0].allowanceMm).toBe(12);
    expect(after.room[0].limitMm).toBe(before.room[0].limitMm + 4);
    expect(after.inputsHash).not.toBe(before.inputsHash);
    // 4 mm more at a foot's 5 to 14 mm a year (Krebs gives 9 at 4-14 y) lasts 3 to 10 months longer.
    const months = (Date.parse(after.p50) - Date.parse(before.p50)) / (30.44 * 86_400_000);
    expect(months).toBeGreaterThan(3);
    expect(months).toBeLessThan(10);

    const page = await service.as('clinician', { url: '/children/c0' });
    expect(page.body).toContain('of 12 mm');
    const whatIf = await service.as('clinician', { url: '/children/c0/what-if/next?device=c0-d' });
    expect(whatIf.body).toMatch(/data-label="In force now">12</);
    expect((await service.as('clinician', { url: '/children/c0/what-if/next?device=c1-d' })).statusCode).toBe(
      404,
    );

    const back = await change([{ ...foot, mm: null, reason: 'audit withdrawn' }], { 'if-match': '"1"' });
    expect(footFigure(back.json())).toMatchObject({ mm: 8, clinic: null });
    const again = await forecast();
    expect(again).toMatchObject({ p10: before.p10, p50: before.p50, inputsHash: before.inputsHash });
    const { items } = (
      await service.as('auditor', { url: '/api/fit-rules/changes?family=solid-afo' })
    ).json();
    expect(items).toMatchObject([
      { version: 2, mm: null, beforeMm: 12, reason: 'audit withdrawn', by: 'clinician' },
      { version: 1, mm: 12, beforeMm: 8, reason, by: 'clinician' },
    ]);
    expect((await service.as('auditor', { url: '/api/fit-rules/changes?family=kafo' })).json().items).toEqual(
      [],
    );
    const audit = await service.as('auditor', { url: '/api/audit?action=change' });
    expect(audit.json().items[0]).toMatchObject({
      resource: 'fit-rules',
      userName: 'clinician',
      detail: { version: 2, limits: [{ limit: 'solid-afo/foot_length/allowanceMm', mm: null }] },
    });
  });

  it('leave children with devices of other families as they were', async () => {
    const added = await service.as('clinician', {
      method: 'POST',
      url: '/api/children/c5/devices',
      payload: { family: 'foot-orthosis', side: 'right', castDate: '2025-06-02', fittedDate: '2025-06-23' },
    });
    expect(added.statusCode).toBe(201);
    const [c4, c5] = [await forecast('c4'), await forecast('c5')];
    await change([{ ...foot, family: 'foot-orthosis', mm: 6, reason }]);
    expect((await forecast('c4')).inputsHash).toBe(c4.inputsHash);
    expect((await forecast('c5')).inputsHash).not.toBe(c5.inputsHash);
  });

  it('are refused with field, value and what is accepted, and then none of them stands', async () => {
    const version = String((await read()).headers.etag);
    const good = { family: 'kafo', measure: 'knee_height', figure: 'allowanceMm', mm: 12, reason };
    for (const [bad, field] of [
      [{ ...foot, mm: 80, reason }, 'changes.1.mm'],
      [{ ...foot, family: 'none', mm: 8, reason }, 'changes.1.family'],
      [{ ...foot, measure: 'head_length', mm: 8, reason }, 'changes.1.measure'],
    ] as const) {
      const answer = await change([good, bad]);
      expect(answer.statusCode, answer.body).toBe(422);
      expect(answer.json()).toMatchObject({ code: 'invalid-rule', field, accepted: expect.any(String) });
    }
    for (const unfit of [
      { ...foot, mm: 6 },
      { ...foot, mm: 6, reason: ' ' },
      { ...foot, mm: '6', reason },
    ])
      expect((await change([unfit])).json()).toMatchObject({ code: 'invalid-value' });
    expect((await read()).headers.etag).toBe(version);
    expect(
      (await service.as('administrator', { method: 'PATCH', url: '/api/fit-rules', payload: {} })).statusCode,
    ).toBe(403);
  });

  it('lose no update and are set once however often the request is repeated', async () => {
    const version = String((await read()).headers.etag);
    const unsaid = await change([{ ...foot, mm: 9, reason }], {});
    expect(unsaid.statusCode).toBe(428);
    const two = await Promise.all(
      [9, 10].map((mm) => change([{ ...foot, mm, reason }], { 'if-match': version })),
    );
    expect(two.map((a) => a.statusCode).sort()).toEqual([200, 412]);
    const once = () =>
      change([{ ...foot, mm: 11, reason }], { 'if-match': '*', 'idempotency-key': 'limits-1' });
    const answers = await Promise.all([once(), once(), once()]);
    expect(new Set(answers.map((a) => a.headers.etag)).size).toBe(1);
    const { items } = (await read()).json() as { items: never[] };
    expect(footFigure({ items })).toMatchObject({ mm: 11 });
  });

  it('reach a worker of another process that has read the rules already, job by job', async () => {
    const other = await openStore(service.database.url);
    const elsewhere = assessor(other, service.deps.clock);
    const allowance = async () =>
      (await elsewhere.current()).context.rules
        .get('solid-afo')!
        .dimensions.find((d) => d.measure === 'foot_length')!.allowanceMm.value;
    await change([{ ...foot, mm: 7, reason }]);
    expect(await allowance()).toBe(7);
    const held = await elsewhere.current();
    await change([{ ...foot, mm: 6.5, reason }]);
    expect(await allowance()).toBe(6.5);
    // What was begun by one set of rules ends by it.
    expect(held.context.rules.get('solid-afo')!.dimensions[0].allowanceMm.value).toBe(7);
    await other.close();
  });

  it('and a change of the record make a kept forecast anew at once; new days alone only once it speaks for them no more', async () => {
    const { store, deps } = service;
    const first = deps.clock.today();
    const on = (id: string, days: number) => {
      const today = addDaysIso(first, days);
      const clock = { now: () => new Date(`${today}T12:00:00Z`), today: () => today, dayOf: () => today };
      return assessor(store, clock).assess(id);
    };
    const madeOn = async (id: string) => (await store.forecasts.assessment(id))!.today;
    const spans = async (id: string) => {
      const { lastDay } = await on(id, 0);
      return lastDay ? daysBetween(first, lastDay.today) : 0;
    };
    const lasting = new Map<number, string>();
    for (const id of await store.caseload.ids()) lasting.set(await spans(id), id);
    const [days, id] = [...lasting].toSorted(([a], [b]) => b - a)[0];
    expect(days).toBeGreaterThan(1);
    expect(days).toBeLessThan(7);
    for (let day = 1; day <= days; day++) {
      expect((await on(id, day)).today).toBe(addDaysIso(first, day));
      expect(await madeOn(id)).toBe(first);
    }
    const after = addDaysIso(first, days + 1);
    expect((await on(id, days + 1)).today).toBe(after);
    expect(await madeOn(id)).toBe(after);
    // A clock put back is no yesterday.
    expect((await on(id, days)).today).toBe(addDaysIso(first, days));
    expect(await madeOn(id)).toBe(addDaysIso(first, days));
    // What an earlier version of the program made is not told as of another day.
    const { program: _, ...stored } = (await store.forecasts.assessment(id))!;
    await store.forecasts.save({ ...stored, today: first, lastDay: { ...stored.lastDay!, today: after } });
    expect((await on(id, 2)).today).toBe(addDaysIso(first, 2));
    expect(await madeOn(id)).toBe(addDaysIso(first, 2));
    await on(id, 0);
    await change([{ ...foot, mm: 5.5, reason }]);
    expect((await on(id, 1)).today).toBe(addDaysIso(first, 1));
    expect(await madeOn(id)).toBe(addDaysIso(first, 1));
    expect((await on(id, 0)).today).toBe(first);
  });

  it('changed under a run of forecasts, are followed by one more run; else by none', async () => {
    const { store, deps } = service;
    await change([{ ...foot, mm: 14, reason }]);
    await idle();
    const now = await store.fitLimits.version();
    const ids = await store.caseload.ids();
    const latest = async () => (await store.jobRuns.latest('forecasts'))[0].id;
    for (const [limitsVersion, followed] of [
      [now, false],
      [now - 1, true],
    ] as const) {
      const runId = (await store.jobRuns.begin('forecasts', new Date()))!;
      await store.jobRuns.setTotal(runId, ids.length);
      await forecastPart(store, deps.clock, deps.assessor, {
        runId,
        part: 0,
        ids,
        month: null,
        limitsVersion,
      });
      expect((await store.jobRuns.get(runId)).status).toBe('done');
      expect((await latest()) !== runId).toBe(followed);
    }
    await idle();
    for (const id of ids)
      for (const f of (await store.forecasts.assessment(id))!.forecasts)
        if (f.family === 'solid-afo') expect(f.room[0].allowanceMm, id).toBe(14);
  });

  it('leave as a file of rules that gives the very same rules on the command line', async () => {
    const { body } = await service.as('clinician', { url: '/api/fit-rules/file' });
    const file = JSON.parse(body);
    expect(file[0]).toMatchObject({ id: expect.any(String), dimensions: [{ measure: 'foot_length' }] });
    const { value } = await service.store.fitLimits.current();
    expect(loadRules(file)).toEqual(clinicRules(value));
    expect(loadRules(file)).toEqual((await service.deps.assessor.current()).context.rules);

    // More children than one thread takes: what the command line computes with the file, the service has stored.
    await service.store.caseload.write(exampleCaseload(4, 'more'), 'test', testToday, systemActor);
    const assessed = await assess(await service.store.caseload.all(), {
      today: testToday,
      rules: loadRules(file),
    });
    expect(assessed.records.length).toBeGreaterThan(8);
    for (const { child } of assessed.records) {
      const { forecasts } = await service.deps.assess(child.id);
      expect(assessed.assessments.get(child.id)!.forecasts).toEqual(forecasts);
    }
  });
});

describe('what a practitioner of the clinic signs', () => {
  let service: TestService;
  beforeAll(async () => {
    service = await testService({ DEMO: 'off' }, 1);
  });
  afterAll(() => service.stop());
  const line = 'Not yet signed by a practitioner';
  const page = async () => (await service.as('scheduler', { url: '/recall' })).body;
  const views = async () => (await service.as('auditor', { url: '/api/sign-offs' })).json().items;
  const sign = (payload: object) =>
    service.as('clinician', { method: 'POST', url: '/api/sign-offs', payload });
  const who = { name: 'A. Practitioner', profession: 'orthotist, 12345' };

  it('stands unsigned on every page of a live clinic until each is signed, and again once it changes', async () => {
    expect(await page()).toContain(line);
    for (const { subject, content } of await views()) {
      expect(await page()).toContain(line);
      expect((await sign({ subject, content, ...who })).statusCode).toBe(201);
    }
    expect((await views()).every((v: { holds: boolean }) => v.holds)).toBe(true);
    expect(await page()).not.toContain(line);

    const changed = await service.as('administrator', {
      method: 'PATCH',
      url: '/api/settings',
      headers: { 'if-match': '*' },
      payload: { acceptedChance: 0.1 },
    });
    expect(changed.statusCode).toBe(200);
    expect(await page()).toContain('accepted chance');
    expect((await service.as('clinician', { url: '/sign-offs' })).body).toContain(
      'Changed since it was signed by',
    );
  });

  it('is not signed for another content, without a name or by another role', async () => {
    const [{ subject, content }] = await views();
    expect((await sign({ subject, content: 'older', ...who })).statusCode).toBe(412);
    expect((await sign({ subject, content, ...who, name: ' ' })).statusCode).toBe(422);
    const other = await service.as('administrator', {
      method: 'POST',
      url: '/api/sign-offs',
      payload: { subject, content, ...who },
    });
    expect(other.statusCode).toBe(403);
  });
});
