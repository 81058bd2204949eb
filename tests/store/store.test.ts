import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { constants, getPriority } from 'node:os';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RecallEntry } from '../../src/recall/contract.js';
import { type Caseload, caseloadParts } from '../../src/records/caseload.js';
import { addDaysIso } from '../../src/records/dates.js';
import { childRecord } from '../../src/records/records.js';
import { skinCheckFields } from '../../src/records/skin-check.js';
import {
  type Actor,
  type ImportCounts,
  type Namesake,
  type Store,
  systemActor,
} from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';

import { type TestDatabase, testDatabase } from '../database/test-database.js';

import { rampForecast } from '../recall/build-a-clinic.js';
import { exampleEntry } from '../recall/example-entry.js';

import { exampleCaseload } from './example-children.js';

const clinician: Actor = { userId: 'u1', name: 'clin', role: 'clinician' };
const scheduler: Actor = { userId: 'u2', name: 'sched', role: 'scheduler' };
const today = '2026-02-01';
const sameName = (a: string, b: string) => a === b;

describe('the store', () => {
  let database: TestDatabase;
  let store: Store;
  let raw: pg.Client;
  beforeAll(async () => {
    database = await testDatabase();
    store = await openStore(database.url);
    raw = new pg.Client({ connectionString: database.url });
    await raw.connect();
    await store.caseload.write(exampleCaseload(12), 'import', today, systemActor);
  });
  afterAll(async () => {
    await raw.end();
    await store.close();
    await database.stop();
  });

  it('gives back exactly what was written', async () => {
    const all = await store.caseload.all();
    const sorted = (rows: readonly { id: string }[]) => [...rows].sort((a, b) => a.id.localeCompare(b.id));
    const given = exampleCaseload(12);
    for (const kind of Object.keys(given) as (keyof typeof given)[])
      expect(sorted(all[kind])).toEqual(sorted(given[kind]));
    expect(await store.caseload.write(all, 'again', today, systemActor)).toEqual({
      added: 0,
      changed: 0,
      unchanged: 12 * 10,
    });
  });

  it('corrects a reading by a new revision and keeps the original; undo is a revision too', async () => {
    const id = 'c0-m0left';
    const corrected = await store.measurements.correct(
      id,
      { value: 175, reason: 'inches were typed' },
      today,
      1,
      clinician,
    );
    expect(corrected).toMatchObject({ revision: 2, measurement: { value: 175, entered: '17,8 cm' } });
    await expect(
      store.measurements.correct(id, { value: 170, reason: 'late' }, today, 1, clinician),
    ).rejects.toMatchObject({ code: 'changed-meanwhile' });
    await store.measurements.correct(id, { withdrawn: true, reason: 'wrong child' }, today, 2, clinician);
    expect((await store.children.record('c0', clinician)).measurements.map((m) => m.id)).not.toContain(id);
    expect((await store.measurements.undoCorrection(id, today, clinician)).measurement.value).toBe(175);
    const revisions = await store.measurements.revisions(id, clinician);
    expect(revisions.map((r) => [r.revision, r.measurement.value, r.withdrawn, r.by])).toEqual([
      [1, 178, false, 'system'],
      [2, 175, false, 'clin'],
      [3, 175, true, 'clin'],
      [4, 175, false, 'clin'],
    ]);
    // Taken back once more, it is out again as it was before.
    expect((await store.measurements.undoCorrection(id, today, clinician)).withdrawn).toBe(true);
    expect((await store.children.record('c0', clinician)).measurements.map((m) => m.id)).not.toContain(id);
    await store.measurements.undoCorrection(id, today, clinician);
  });

  it('corrects what was recorded of a device and takes it back; the end of a device goes with its entry', async () => {
    const deviceId = 'c1-d';
    const about = { deviceId, measure: null, side: null, changeMm: null, adjustment: null } as const;
    const said = {
      ...about,
      date: today,
      kind: 'verdict',
      verdict: 'outgrown',
      endReason: null,
      note: '',
    } as const;
    const verdict = await store.events.add(said, today, clinician);
    const fix = { verdict: 'good', date: '2026-01-30', reason: 'the other foot' } as const;
    await store.events.correct(verdict.id, fix, today, clinician);
    const now = async () =>
      (await store.children.record('c1', clinician)).events.find((e) => e.id === verdict.id);
    expect(await now()).toMatchObject({ verdict: 'good', date: '2026-01-30' });
    await store.events.undoCorrection(verdict.id, today, clinician);
    expect(await now()).toMatchObject({ verdict: 'outgrown', date: today });
    await expect(
      store.events.correct(verdict.id, { date: '2030-01-01', reason: 'x' }, today, clinician),
    ).rejects.toMatchObject({ code: 'invalid-value' });
    await store.events.withdraw(verdict.id, 'another child', clinician);
    expect(await now()).toBeUndefined();
    await store.events.undoCorrection(verdict.id, today, clinician);
    expect(await now()).toMatchObject({ verdict: 'outgrown' });
    const own = (await store.events.revisions(deviceId, clinician)).filter((r) => r.event.id === verdict.id);
    expect(own.map((r) => [r.revision, r.event.verdict, r.withdrawn])).toEqual([
      [1, 'outgrown', false],
      [2, 'good', false],
      [3, 'outgrown', false],
      [4, 'outgrown', true],
      [5, 'outgrown', false],
    ]);
    const ended = { ...said, kind: 'retired', verdict: null, endReason: 'outgrown' } as const;
    const end = await store.events.add(ended, today, clinician);
    expect((await store.devices.get(deviceId, clinician)).value.status).toBe('retired');
    await store.events.withdraw(end.id, 'wrong device', clinician);
    expect((await store.devices.get(deviceId, clinician)).value.status).toBe('worn');
  });

  it('a delivery taken back leaves the device being made, and one dated anew is fitted on that day', async () => {
    const state = async () => {
      const { status, fittedDate } = (await store.devices.get('c6-d', clinician)).value;
      return [status, fittedDate];
    };
    expect(await state()).toEqual(['worn', '2025-06-23']);
    await store.events.withdraw('c6-e', 'another child', clinician);
    expect(await state()).toEqual(['ordered', null]);
    await store.events.undoCorrection('c6-e', today, clinician);
    expect(await state()).toEqual(['worn', '2025-06-23']);
    await store.events.correct('c6-e', { date: '2025-06-25', reason: 'misread' }, today, clinician);
    expect(await state()).toEqual(['worn', '2025-06-25']);
    await store.events.undoCorrection('c6-e', today, clinician);
  });

  it('keeps every state of a device with who changed it, and goes back one', async () => {
    const before = (await store.devices.get('c2-d', clinician)).value;
    await store.devices.change('c2-d', { allowancesMm: { foot_length: 12 } }, today, null, clinician);
    const back = await store.devices.undoChange('c2-d', today, clinician);
    expect(back.value).toEqual(before);
    const versions = await store.devices.versions('c2-d', clinician);
    expect(versions.map((v) => [v.version, v.device.allowancesMm.foot_length ?? null, v.by])).toEqual([
      [3, before.allowancesMm.foot_length ?? null, 'clin'],
      [2, 12, 'clin'],
      [1, before.allowancesMm.foot_length ?? null, null],
    ]);
    await expect(store.devices.undoChange('c3-d', today, clinician)).rejects.toMatchObject({
      code: 'nothing-to-undo',
    });
  });

  it('moves a whole visit to another day, and none to a day before birth', async () => {
    const check = { childId: 'c4', deviceId: 'c4-d', date: '2026-01-12', side: null, state: 'none' } as const;
    const rest = { minutes: null, where: '', cannotWarn: false, observer: '', note: '' };
    await store.skinChecks.add({ ...check, ...rest }, today, clinician);
    const about = {
      deviceId: 'c4-d',
      measure: null,
      side: null,
      changeMm: null,
      date: '2026-01-12',
      note: '',
    };
    const told = { ...about, adjustment: null, verdict: null, endReason: null };
    const verdict = { ...told, kind: 'verdict', verdict: 'tight' } as const;
    const other = { ...told, kind: 'broken' } as const;
    for (const event of [verdict, other]) await store.events.add(event, today, clinician);
    const move = { from: '2026-01-12', to: '2026-01-14', reason: 'typed the Monday' };
    expect(await store.visits.move('c4', move, today, clinician)).toBe(5);
    const { measurements, skinChecks, events } = await store.children.record('c4', clinician);
    const on = (day: string, rows: readonly { date: string }[]) => rows.filter((r) => r.date === day).length;
    for (const rows of [measurements, skinChecks])
      expect([on(move.from, rows), on(move.to, rows)]).toEqual([0, 2]);
    // What was done to the device has its own day; only the judgement is of the visit.
    const of = (kind: string) => events.filter((e) => e.kind === kind).map((e) => e.date);
    expect([of('verdict'), of('broken')]).toEqual([[move.to], [move.from]]);
    await expect(
      store.visits.move('c4', { from: '2026-01-14', to: '2001-01-01', reason: 'x' }, today, clinician),
    ).rejects.toMatchObject({ code: 'invalid-value' });
    await expect(
      store.visits.move('c4', { from: '2020-02-02', to: '2026-01-01', reason: 'x' }, today, clinician),
    ).rejects.toMatchObject({ code: 'not-found' });
  });

  it.each([
    'measurements',
    'markers',
    'skin_checks',
    'device_events',
    'audit',
    'record_history',
    'recall_state_changes',
    'fit_limit_changes',
    'sign_offs',
  ])('refuses to change or delete a row of %s, even by SQL', async (table) => {
    if (table === 'record_history')
      await store.children.change('c1', { contact: 'new' }, today, null, clinician);
    if (table === 'fit_limit_changes')
      await store.fitLimits.change(
        [{ family: 'kafo', measure: 'knee_height', figure: 'allowanceMm', mm: 12, reason: 'own audit' }],
        0,
        clinician,
      );
    if (table === 'sign_offs')
      await store.signOffs.sign(
        { subject: 'fit-limits', content: 'x', name: 'A. Practitioner', profession: 'orthotist' },
        clinician,
      );
    if (table === 'recall_state_changes') {
      await store.recall.save(run, [entry('c1')]);
      const [row] = await store.recall.entries((await store.recall.latestRun())!.id, {}, scheduler);
      await store.recall.setState(row.id, { state: 'called', note: '' }, null, scheduler);
    }
    const { rows } = await raw.query(`select count(*)::int as n from ${table}`);
    expect(rows[0].n).toBeGreaterThan(0);
    await expect(raw.query(`delete from ${table}`)).rejects.toThrow(/append-only/);
    await expect(raw.query(`truncate ${table} cascade`)).rejects.toThrow(/append-only/);
    const columns: Record<string, string> = {
      recall_state_changes: 'note',
      audit: 'action',
      fit_limit_changes: 'reason',
      sign_offs: 'content',
    };
    const column = columns[table] ?? 'child_id';
    await expect(raw.query(`update ${table} set ${column} = 'x'`)).rejects.toThrow(/append-only/);
  });

  const run = {
    today,
    month: '2026-02-01',
    summary: {},
    modelName: 'm',
    modelVersion: '1',
    seed: 1,
    inputsHash: 'h',
  };
  const entry = (childId: string) => ({
    list: 'due' as const,
    entry: entryOf(childId),
  });
  const entryOf = (childId: string) => exampleEntry({ childId, deviceIds: [`${childId}-d`] });

  it('tells those who are called from those who could fill a place', async () => {
    const made = await store.recall.save(run, [entry('c2'), { ...entry('c3'), list: 'open' as const }]);
    const called = await store.recall.entries(made.id, { due: true }, scheduler);
    expect(called.map((r) => r.childId)).toEqual(['c2']);
    expect(await store.recall.entries(made.id, {}, scheduler)).toHaveLength(2);
    const briefs = await store.recall.briefs(made.id, { due: true });
    expect(briefs.map((r) => r.childId)).toEqual(['c2']);
    expect(Object.keys(briefs[0].entry)).not.toContain('devices');
    const { name } = (await store.children.get('c3', clinician)).value;
    for (const text of ['c3', name.slice(1).toUpperCase()]) {
      const found = await store.recall.briefs(made.id, { text });
      expect(
        found.map((r) => r.childId),
        text,
      ).toEqual(['c3']);
    }
  });

  it('shows nobody who died or moved away since the list was made', async () => {
    const made = await store.recall.save(run, [entry('c2'), entry('c3')]);
    const listed = async () => {
      const briefs = (await store.recall.briefs(made.id, {})).map((r) => r.childId).sort();
      expect((await store.recall.entries(made.id, {}, scheduler)).map((r) => r.childId).sort()).toEqual(
        briefs,
      );
      return briefs;
    };
    expect(await listed()).toEqual(['c2', 'c3']);
    for (const status of ['moved-away', 'died'] as const) {
      await store.children.change('c2', { status }, today, null, clinician);
      expect(await listed()).toEqual(['c3']);
    }
    await store.children.change('c2', { status: 'active' }, today, null, clinician);
    expect(await listed()).toEqual(['c2', 'c3']);
  });

  it('keeps work states with undo, and carries them over to the next list', async () => {
    const first = await store.recall.save(run, [entry('c2'), entry('c3')]);
    const [a] = await store.recall.entries(first.id, { childId: 'c2' }, scheduler);
    expect((await store.recall.briefs(first.id, {})).map((r) => r.state)).toEqual(['to-call', 'to-call']);
    const called = await store.recall.setState(
      a.id,
      { state: 'called', note: 'no answer' },
      a.version,
      scheduler,
    );
    expect(called).toMatchObject({ state: 'called', stateBy: 'sched', canUndo: true });
    expect((await store.recall.briefs(first.id, {})).map((r) => r.state)).toEqual(['called', 'to-call']);
    await expect(
      store.recall.setState(a.id, { state: 'booked', note: '' }, a.version, scheduler),
    ).rejects.toMatchObject({
      code: 'changed-meanwhile',
    });
    await store.recall.setState(a.id, { state: 'booked', note: '' }, null, scheduler);
    expect((await store.recall.undo(a.id, scheduler)).state).toBe('called');
    expect((await store.recall.undo(a.id, scheduler)).state).toBe('to-call');
    await expect(store.recall.undo(a.id, scheduler)).rejects.toMatchObject({ code: 'nothing-to-undo' });
    await store.recall.setState(a.id, { state: 'booked', note: '' }, null, scheduler);
    const next = await store.recall.save(run, [entry('c3'), entry('c2')]);
    expect((await store.recall.entries(next.id, {}, scheduler)).map((r) => [r.childId, r.state])).toEqual([
      ['c3', 'to-call'],
      ['c2', 'booked'],
    ]);
  });

  it('keeps appointments and notes from list to list, and rings again whose week came to nothing', async () => {
    const week = '2026-02-09';
    const planned = (childId: string, by: Partial<RecallEntry> = {}) => ({
      list: 'due' as const,
      entry: { ...entryOf(childId), plannedWeek: week, ...by },
    });
    const rowOf = async (runId: string, childId: string) =>
      (await store.recall.entries(runId, { childId }, scheduler))[0];
    const first = await store.recall.save(run, [planned('c2'), planned('c3')]);
    const [a, b] = [await rowOf(first.id, 'c2'), await rowOf(first.id, 'c3')];
    await store.recall.setState(
      a.id,
      { state: 'booked', note: 'brings his sister', appointment: '2026-02-11' },
      null,
      scheduler,
    );
    const changed = await store.recall.setState(a.id, { state: 'called', note: '' }, null, scheduler);
    expect(changed.appointment).toBe('2026-02-11');
    expect(await store.recall.undo(a.id, scheduler)).toMatchObject({
      state: 'booked',
      appointment: '2026-02-11',
    });
    await store.recall.setState(b.id, { state: 'declined', note: 'wants a Friday' }, null, scheduler);
    expect((await store.recall.earlierVisits()).map((v) => [v.childId, v.state, v.appointment])).toEqual([
      ['c2', 'booked', '2026-02-11'],
      ['c3', 'declined', null],
    ]);
    const passedWeeks = [{ week, why: 'declined' as const }];
    const next = await store.recall.save(run, [
      planned('c2'),
      planned('c3', { plannedWeek: '2026-02-16', passedWeeks }),
    ]);
    const held = await rowOf(next.id, 'c2');
    expect(held).toMatchObject({
      state: 'booked',
      appointment: '2026-02-11',
      stateBy: 'sched',
      canUndo: true,
    });
    expect(await rowOf(next.id, 'c3')).toMatchObject({
      state: 'to-call',
      appointment: null,
      stateNote: 'wants a Friday',
    });
    expect(await store.recall.undo(held.id, scheduler)).toMatchObject({
      state: 'to-call',
      appointment: null,
    });
  });

  it('pages through children without loss or repeat, by name and by soonest', async () => {
    const forecastOf = (childId: string, outcome: 'forecast' | 'too-few-measurements', p50: string | null) =>
      store.forecasts.save({
        childId,
        forecasts: [
          {
            ...run,
            deviceId: `${childId}-d`,
            childId,
            family: 'solid-afo',
            outcome,
            explanation: '',
            p10: p50,
            p50,
            p90: p50,
            dates: [],
            probabilityOutgrown: [],
            drivers: [],
            room: [],
            probabilityOutgrownNow: 0,
          },
        ],
        flags: [],
        suggestions: [],
        ...run,
        computedAt: new Date(0).toISOString(),
      });
    await forecastOf('c5', 'forecast', addDaysIso(run.today, -20));
    await forecastOf('c8', 'forecast', addDaysIso(run.today, 90));
    await forecastOf('c9', 'too-few-measurements', null);
    for (const sort of ['name', 'soonest'] as const) {
      const seen: string[] = [];
      let cursor: string | null = null;
      do {
        const page = await store.children.search({ sort }, { limit: 5, cursor }, clinician);
        seen.push(...page.items.map((c) => c.id));
        cursor = page.nextCursor;
      } while (cursor);
      expect(seen).toHaveLength(12);
      expect(new Set(seen).size).toBe(12);
      // Unknown counts as an even chance today: before what fits for months, after what is past its middle date.
      if (sort === 'soonest') expect(seen.slice(0, 3)).toEqual(['c5', 'c9', 'c8']);
    }
    expect((await store.children.search({ text: 'child C1' }, {}, clinician)).items.map((c) => c.id)).toEqual(
      ['c1', 'c10', 'c11'],
    );
    expect((await store.children.search({ text: '%' }, {}, clinician)).items).toEqual([]);
  });

  it('finds a child by its names in any order, initials, birth date, and with one slip of the keyboard', async () => {
    await store.children.create(
      childRecord.parse({
        id: 'n-7',
        name: 'Tarnbeck, Ottilie-May',
        birthDate: '2019-03-14',
        sex: 'female',
      }),
      today,
      clinician,
    );
    const found = async (text: string, slip = false) =>
      (await store.children.search({ text, slip }, {}, clinician)).items.map((c) => c.id);
    for (const text of [
      'tarnbeck ottilie',
      'Ottilie Tarn',
      'may',
      'OT',
      'to',
      'n-7',
      '14/03/2019',
      '14.3.2019 tarn',
      '2019-03-14',
    ])
      expect(await found(text), text).toEqual(['n-7']);
    for (const text of ['Tranbeck', 'Tarnbek', 'Tarnnbeck', 'Ottilia', 'Tarnpeck'])
      expect([await found(text), await found(text, true)], text).toEqual([[], ['n-7']]);
    for (const text of ['tarnbeck walter', '15/03/2019', 'Tarnzekk', '(', '.*', '\\'])
      expect(await found(text, true), text).toEqual([]);
    await store.children.erase('n-7', 'made up for this check', clinician);
  });

  it('shows a scheduler no diagnosis', async () => {
    const record = await store.children.record('c4', scheduler);
    expect(record.child.conditions).toEqual([]);
    expect(record.markers).toEqual([]);
    expect(record.skinChecks).toEqual([]);
    expect((await store.children.record('c4', clinician)).child.conditions).toEqual(['cerebral-palsy']);
  });

  it('keeps skin checks, withdrawn ones on record only, and refuses a wrong device or day', async () => {
    const given = {
      childId: 'c4',
      deviceId: 'c4-d',
      date: '2026-01-20',
      state: 'lasts',
      minutes: 40,
    } as const;
    const rest = { where: 'heel', side: 'left', cannotWarn: false, observer: '', note: '' } as const;
    const check = await store.skinChecks.add({ ...given, ...rest }, '2026-02-01', clinician);
    const stored = async () => (await store.children.record('c4', clinician)).skinChecks.map((c) => c.id);
    expect(await stored()).toContain(check.id);
    await store.skinChecks.withdraw(check.id, 'wrong child', clinician);
    expect(await stored()).not.toContain(check.id);
    const add = (more: object) =>
      store.skinChecks.add({ ...given, ...rest, ...more }, '2026-02-01', clinician);
    await expect(add({ deviceId: 'c5-d' })).rejects.toMatchObject({ place: { field: 'deviceId' } });
    await expect(add({ date: '2026-02-02' })).rejects.toMatchObject({ code: 'invalid-value' });
    await expect(add({ minutes: 5 })).rejects.toThrow(/more than 20 minutes/);
  });

  it('a role that the provider changes ends what was begun with the one before; the same role ends nothing', async () => {
    const subject = { issuer: 'https://id.test', subject: 's1', name: 'rolf', displayName: 'Rolf' };
    const first = await store.users.fromOidc({ ...subject, role: 'scheduler' });
    expect((await store.users.fromOidc({ ...subject, role: 'scheduler' })).version).toBe(first.version);
    const changed = await store.users.fromOidc({ ...subject, role: 'clinician' });
    expect(changed).toMatchObject({ id: first.id, role: 'clinician', version: first.version + 1 });
  });

  it('opens a family link until it expires or is withdrawn, and none that was forged', async () => {
    const now = new Date('2026-02-01T10:00:00Z');
    const link = await store.familyLinks.create('c4', 'mother', 30, now, clinician);
    expect((await store.familyLinks.open(link.token, now)).childId).toBe('c4');
    const late = new Date('2026-03-05T10:00:00Z');
    const notValid = { code: 'link-not-valid' };
    await expect(store.familyLinks.open(link.token, late)).rejects.toMatchObject(notValid);
    const [id, , signature] = link.token.split('.');
    const longer = `${id}.${Math.floor(late.getTime() / 1000) + 99}.${signature}`;
    for (const forged of [longer, `${link.token}x`, '', 'a.b.c', `${id}.99999999999.x`])
      await expect(store.familyLinks.open(forged, now)).rejects.toMatchObject(notValid);
    for (const status of ['died', 'moved-away', 'discharged', 'active'] as const) {
      await store.children.change('c4', { status }, '2026-02-01', null, clinician);
      const opened = store.familyLinks.open(link.token, now);
      if (status === 'active') expect((await opened).childId).toBe('c4');
      else await expect(opened).rejects.toMatchObject(notValid);
    }
    await store.familyLinks.withdraw(link.id, now, clinician);
    await expect(store.familyLinks.open(link.token, now)).rejects.toMatchObject(notValid);
  });

  it('finds the children under this clinic unless others are asked for, and keeps a birth before what was read', async () => {
    const found = async (search: Parameters<Store['children']['search']>[0]) =>
      (await store.children.search(search, { limit: 100 }, clinician)).items.map((c) => c.id);
    await store.children.change('c10', { status: 'discharged' }, today, null, clinician);
    expect(await found({})).not.toContain('c10');
    expect(await found({ status: 'any' })).toContain('c10');
    await store.children.change('c10', { status: 'active' }, today, null, clinician);
    // Its first entry is of 2 June 2025.
    await expect(
      store.children.change('c10', { birthDate: '2025-06-03' }, today, null, clinician),
    ).rejects.toMatchObject({ code: 'invalid-value' });
  });

  it('erases a child for good, keeps the audit trail, and refuses its return', async () => {
    await store.measurements.correct('c7-m0left', { value: 179, reason: 'misread' }, today, null, clinician);
    await store.devices.change('c7-d', { allowancesMm: { foot_length: 12 } }, today, null, clinician);
    await store.familyQuestions.ask('c7', 'c7-d', new Date(), clinician);
    await store.familyLinks.create('c7', 'mother', 30, new Date(), clinician);
    await store.forecasts.save({
      ...{ childId: 'c7', today, forecasts: [rampForecast('c7-d', 40, 90)], flags: [], suggestions: [] },
      ...{ inputsHash: 'h', modelName: 'm', modelVersion: '1', seed: 1, computedAt: `${today}T12:00:00Z` },
    });
    const made = await store.recall.save(run, [entry('c7')]);
    const [row] = await store.recall.entries(made.id, {}, scheduler);
    await store.recall.setState(row.id, { state: 'called', note: 'c7' }, null, scheduler);
    // The answer to a request that may be sent again carries the record.
    await store.idempotency.claim('u1', 'sent-once', 'h');
    const answer = { status: 200, headers: {}, body: JSON.stringify({ id: 'c7' }) };
    await store.idempotency.save('u1', 'sent-once', answer);
    const records = [{ part: 'children' as const, json: JSON.stringify([{ id: 'c7' }]) }];
    const plan = { refusedCount: 1, columns: [{ heading: 'Name', examples: ['c7'] }] };
    const dryRun = { records, planOf: () => plan, sameName, packed: new Uint8Array(3), options: {} };
    const { id: importId } = await store.imports.create(dryRun, systemActor);
    // Asked of the database, so that a table made later is not forgotten: no row anywhere still carries the child.
    const { rows: tables } = await raw.query<{ name: string }>(
      "select table_name as name from information_schema.tables where table_schema = current_schema() and table_type = 'BASE TABLE'",
    );
    const shapeOf = async () => {
      const names: string[] = [];
      for (const { name } of tables) {
        const { rows } = await raw.query(
          `select count(*)::int as n from ${name} t where to_jsonb(t)::text ~ '"c7["\\\\-]'`,
        );
        if (rows[0].n > 0) names.push(name);
      }
      return names.sort();
    };
    const { rows: ofChildren } = await raw.query<{ name: string }>(
      "select c.table_name as name from information_schema.columns c join information_schema.tables t using (table_schema, table_name) where table_schema = current_schema() and table_type = 'BASE TABLE' and column_name = 'child_id'",
    );
    // Each holds something of the child before, so that each is seen to be emptied.
    const held = [
      ...ofChildren.map((r) => r.name).filter((name) => name !== 'tombstones'),
      'imports',
      'import_rows',
      'idempotency_keys',
    ];
    expect(await shapeOf()).toEqual(expect.arrayContaining(held));
    await store.children.erase('c7', 'parents asked', { ...clinician, role: 'administrator' });
    expect(await shapeOf()).toEqual(['audit', 'tombstones']);
    // The clinic's sheet itself lies packed, where no search finds the child.
    expect(await store.imports.get(importId)).toMatchObject({
      plan: { refusedCount: 1, columns: [] },
      kept: false,
      packed: null,
    });
    await expect(store.children.get('c7', clinician)).rejects.toMatchObject({ code: 'not-found' });
    await expect(
      store.caseload.write(exampleCaseload(8), 'old file', today, systemActor),
    ).rejects.toMatchObject({
      code: 'already-there',
    });
    const again = childRecord.parse({ id: 'c7', birthDate: '2018-03-01', sex: 'female' });
    await expect(store.children.create(again, today, clinician)).rejects.toMatchObject({
      code: 'already-there',
    });
    const trail = await store.audit.list({ childId: 'c7' }, {});
    expect(trail.items.filter((r) => r.childId === 'c7').map((r) => r.action)).toEqual(
      expect.arrayContaining(['erase', 'correct', 'change']),
    );
  });

  it('audits every read and write of a child with who did it', async () => {
    await store.children.record('c8', scheduler);
    await store.visits.add(
      'c8',
      { date: today, measurements: [{ measure: 'foot_length', side: 'left', value: 190 }] },
      today,
      clinician,
    );
    const trail = await store.audit.list({ childId: 'c8' }, {});
    const alone = trail.items.filter((r) => r.childId === 'c8');
    expect(alone.map((r) => [r.userName, r.action, r.resource])).toEqual([
      ['clin', 'create', 'visit'],
      ['sched', 'read', 'child-record'],
    ]);
    expect(JSON.stringify(trail.items)).not.toContain('Invented Child');
    // What children are called is told of many at once, and who was told it stands with each.
    expect((await store.children.names(['c8', 'c9'], scheduler)).get('c9')).toContain('Invented Child');
    for (const childId of ['c8', 'c9']) {
      const { items } = await store.audit.list({ childId }, { limit: 1 });
      expect(items).toMatchObject([{ userName: 'sched', action: 'list', resource: 'children' }]);
    }
  });

  it('audits who entered and who changed a child, by the fields and without what stands in them', async () => {
    const child = childRecord.parse({
      id: 'n-8',
      name: 'Ashcombe, Wren',
      birthDate: '2019-05-04',
      sex: 'female',
    });
    await store.children.create(child, today, clinician);
    await store.children.change('n-8', { contact: 'her aunt, after five' }, today, null, scheduler);
    const { items } = await store.audit.list({ childId: 'n-8' }, {});
    expect(items.map((r) => [r.userName, r.action, r.resource])).toEqual([
      ['sched', 'change', 'child'],
      ['clin', 'create', 'child'],
    ]);
    expect(items[0].detail).toMatchObject({ fields: ['contact'] });
    expect(JSON.stringify(items)).not.toMatch(/Ashcombe|aunt/);
  });

  it('says that there is no such child instead of showing an empty record, and logs no reading of it', async () => {
    for (const reading of [
      () => store.children.record('nobody', clinician),
      () => store.measurements.corrected('nobody', clinician),
      () => store.familyLinks.list('nobody', clinician),
    ])
      await expect(reading()).rejects.toMatchObject({ code: 'not-found' });
    expect((await store.audit.list({ childId: 'nobody' }, {})).items).toEqual([]);
  });

  it('stores a whole visit or none of it, and says which reading cannot be', async () => {
    const before = (await store.visits.list('c9', clinician)).length;
    const visit = {
      date: '2026-01-31',
      measurements: [
        { measure: 'foot_length' as const, side: 'left' as const, value: 190 },
        { measure: 'foot_length' as const, side: 'right' as const, value: 6.9 },
      ],
    };
    await expect(store.visits.add('c9', visit, today, clinician)).rejects.toMatchObject({
      code: 'invalid-value',
      place: { row: 2, field: 'value', given: '6.9', accepted: '50 to 340 mm' },
    });
    expect(await store.visits.list('c9', clinician)).toHaveLength(before);
  });

  it('signs in with the right password only, and keeps the last administrator', async () => {
    const admin = await store.users.create(
      { name: 'Admin', role: 'administrator', password: 'correct horse battery' },
      systemActor,
    );
    expect(await store.users.signIn('admin', 'correct horse battery')).toMatchObject({ id: admin.id });
    expect(await store.users.signIn('admin', 'correct horse')).toBeNull();
    expect(await store.users.signIn('nobody', 'correct horse battery')).toBeNull();
    await expect(store.users.change(admin.id, { disabled: true }, null, systemActor)).rejects.toMatchObject({
      code: 'invalid-value',
    });
    const { rows } = await raw.query('select password_hash from users where id = $1', [admin.id]);
    expect(rows[0].password_hash).toMatch(/^\$argon2id\$/);
  });

  it('keeps of sessions and tokens a hash alone, and a long secret of its own for each purpose', async () => {
    const { id } = await store.users.create(
      { name: 'Hashed', role: 'clinician', password: 'a long password' },
      systemActor,
    );
    const later = new Date(Date.now() + 60_000);
    const token = await store.accessTokens.create(id, later);
    await store.sessions.set('id-in-the-cookie', { userId: id }, later);
    expect((await store.accessTokens.userOf(token, new Date()))?.id).toBe(id);
    expect(await store.sessions.get('id-in-the-cookie')).toEqual({ userId: id });
    const { rows } = await raw.query<{ row: string }>(
      'select to_jsonb(t)::text as row from access_tokens t union all select to_jsonb(s)::text from sessions s',
    );
    const kept = rows.map(({ row }) => row).join();
    expect(kept).toContain(id);
    for (const secret of [token, 'id-in-the-cookie']) expect(kept).not.toContain(secret);
    const purposes = ['session-cookie', 'family-links', 'calendar-feed'];
    const secrets = await Promise.all(purposes.map((name) => store.secret(name)));
    expect(new Set(secrets).size).toBe(purposes.length);
    expect(await store.secret('family-links')).toBe(secrets[1]);
    // 32 random bytes in base64url.
    for (const secret of secrets) expect(secret).toMatch(/^[\w-]{43,}$/);
  });

  it('leaves a thread to everything else while everybody signs in at once', async () => {
    await store.users.create({ name: 'Early', role: 'clinician', password: 'a long password' }, systemActor);
    let signedIn = 0;
    const people = Array.from({ length: 24 }, () =>
      store.users.signIn('early', 'a long password').then((user) => {
        expect(user).not.toBeNull();
        signedIn++;
      }),
    );
    await Promise.race(people);
    // Files are read by the threads that passwords are hashed on (Node's documentation, "The libuv thread pool").
    await readFile(import.meta.filename);
    expect(signedIn).toBeLessThan(8);
    await Promise.all(people);
    expect(signedIn).toBe(24);
  });

  it.skipIf(!existsSync('/proc/self/cmdline'))(
    'puts what it asks for a worker behind what pages ask, but not what it writes: that all who write wait for',
    async () => {
      const worker = await openStore(database.url, { worker: true });
      const prioritiesOf = async (name: string) => {
        const { rows } = await raw.query(
          'select pid from pg_stat_activity where application_name = $1 and datname = current_database()',
          [name],
        );
        return [...new Set(rows.map(({ pid }) => getPriority(pid)))];
      };
      try {
        await Promise.all([worker.caseload.ids(), store.caseload.ids()]);
        expect(await prioritiesOf('doorpost-worker')).toEqual([constants.priority.PRIORITY_BELOW_NORMAL]);
        expect(await prioritiesOf('doorpost')).toEqual([getPriority()]);
        await worker.transaction((tx) => tx.caseload.ids());
        expect(await prioritiesOf('doorpost-worker')).toContain(getPriority());
      } finally {
        await worker.close();
      }
    },
  );

  it('ends a sign-in: a token withdrawn or with all sessions, a session at its hour', async () => {
    const { id } = await store.users.create({ name: 'Leaver', role: 'clinician' }, systemActor);
    const later = new Date(Date.now() + 60_000);
    const opens = async (token: string) => (await store.accessTokens.userOf(token, new Date()))?.id;
    const [one, two] = [
      await store.accessTokens.create(id, later),
      await store.accessTokens.create(id, later),
    ];
    expect([await opens(one), await opens(two)]).toEqual([id, id]);
    await store.accessTokens.revoke(one);
    expect([await opens(one), await opens(two)]).toEqual([undefined, id]);
    // What is swept away has passed; what still opens a door goes on doing so.
    await store.sessions.sweep(new Date());
    expect(await opens(two)).toBe(id);
    await store.users.endSessions(id, 'sign-out', { userId: id, name: 'leaver', role: 'clinician' });
    expect(await opens(two)).toBeUndefined();
    const session = { userId: id } as never;
    await store.sessions.set('over', session, new Date(Date.now() - 1000));
    await store.sessions.set('open', session, later);
    expect([await store.sessions.get('over'), await store.sessions.get('open')]).toEqual([null, session]);
  });

  it('changes no user under another’s hand, and tells a password that somebody else gave', async () => {
    const admin: Actor = { userId: 'a1', name: 'adm', role: 'administrator' };
    const given = { name: 'Given', role: 'clinician' as const, password: 'told at the front desk' };
    const { id, version, passwordByOther } = await store.users.create(given, admin);
    expect(passwordByOther).toBe(true);
    const own = await store.users.change(id, { password: 'known to nobody else' }, version, {
      ...admin,
      userId: id,
    });
    expect(own.passwordByOther).toBe(false);
    await expect(store.users.change(id, { displayName: 'Late' }, version, admin)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    });
    const again = await store.users.change(id, { password: 'told at the front desk' }, own.version, admin);
    expect(again.passwordByOther).toBe(true);
  });

  it('changes no setting under another’s hand, and says who changed which', async () => {
    const { version } = await store.settings.get();
    const admin: Actor = { userId: 'a1', name: 'adm', role: 'administrator' };
    await store.settings.change({ castingSlotsPerWeek: 5 }, version, admin);
    await expect(store.settings.change({ castingSlotsPerWeek: 9 }, version, admin)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    });
    expect((await store.settings.get()).value.castingSlotsPerWeek).toBe(5);
    const [last] = (await store.audit.list({ userId: 'a1', action: 'change' }, { limit: 1 })).items;
    expect(last).toMatchObject({ resource: 'settings', detail: { fields: ['castingSlotsPerWeek'] } });
  });

  it('forgets a dry run that nobody took in, and keeps what was taken in', async () => {
    const checked = { records: [], planOf: () => ({}), sameName, packed: new Uint8Array(3), options: {} };
    const idOf = async (status: 'checked' | 'refused' | 'queued' | 'committed', age: string) => {
      const { id } = await store.imports.create(checked, systemActor);
      await store.imports.setStatus(id, status);
      await raw.query('update imports set created_at = $1 where id = $2', [age, id]);
      return id;
    };
    const [long, lately] = ['2026-01-01', '2026-02-01'];
    const gone = [await idOf('checked', long), await idOf('refused', long)];
    const stays = [await idOf('checked', lately), await idOf('queued', long), await idOf('committed', long)];
    await store.imports.sweep(new Date('2026-01-15'));
    const { rows } = await raw.query('select id from imports where id = any($1)', [[...gone, ...stays]]);
    expect(rows.map((r) => r.id).sort()).toEqual(stays.sort());
  });

  it('takes no second child or device of a number, and no job under another’s hand', async () => {
    const twice = { code: 'already-there', place: { field: 'id' } };
    const { value: child } = await store.children.get('c8', clinician);
    await expect(store.children.create(child, today, clinician)).rejects.toMatchObject(twice);
    const { value: device } = await store.devices.get('c8-d', clinician);
    await expect(store.devices.create(device, today, clinician)).rejects.toMatchObject(twice);
    const job = {
      id: 'c8-new',
      deviceId: 'c8-d',
      family: 'solid-afo',
      stages: {},
      status: 'in-progress' as const,
    };
    expect(await store.workshopJobs.save(job, today, 0, clinician)).toEqual({ value: job, version: 1 });
    await expect(store.workshopJobs.save(job, today, 0, clinician)).rejects.toMatchObject({
      code: 'changed-meanwhile',
    });
    expect((await store.workshopJobs.save(job, today, 1, clinician)).version).toBe(2);
    const early = { ...job, stages: { cast: '2017-01-01' } };
    await expect(store.workshopJobs.save(early, today, 2, clinician)).rejects.toMatchObject({
      code: 'invalid-value',
      place: { field: 'stages.cast' },
    });
  });

  it('corrects no reading to a day before the birth, nor a device to one', async () => {
    const born = { code: 'invalid-value', place: { given: '2017-01-01' } };
    const move = { date: '2017-01-01', reason: 'another year' };
    await expect(store.measurements.correct('c8-m0left', move, today, null, clinician)).rejects.toMatchObject(
      born,
    );
    await expect(
      store.devices.change('c8-d', { castDate: '2017-01-01' }, today, null, clinician),
    ).rejects.toMatchObject(born);
  });

  it('counts what an import would add and change, record by record, and who is kept under another number', async () => {
    const kept = exampleCaseload(3, 'w');
    await store.caseload.write(kept, 'import', today, systemActor);
    const compared = async (given: Caseload) => {
      const records = caseloadParts.map((part) => ({ part, json: JSON.stringify(given[part]) }));
      const planOf = (tables: readonly ImportCounts[], namesakes: readonly Namesake[]) => ({
        tables,
        namesakes,
      });
      const { id, plan } = await store.imports.create(
        { records, planOf, sameName, packed: null, options: {} },
        systemActor,
      );
      await raw.query('delete from imports where id = $1', [id]);
      return plan;
    };
    const same = await compared(kept);
    for (const { table, ...counts } of same.tables)
      expect(counts, table).toEqual({ added: 0, changed: 0, unchanged: kept[table].length });
    const turned = (record: object) => Object.fromEntries(Object.entries(record).reverse());
    const other: Caseload = {
      ...kept,
      children: [
        turned(kept.children[0]),
        { ...kept.children[1], contact: 'new' },
        { ...kept.children[2], id: 'w9' },
      ],
      measurements: kept.measurements.map((m, i) => (i === 0 ? { ...m, value: m.value + 1 } : m)),
      events: kept.events.map((e, i) => (i === 0 ? { ...e, note: 'seen' } : e)),
    } as unknown as Caseload;
    const { tables, namesakes } = await compared(other);
    const of = Object.fromEntries(tables.map(({ table, ...counts }) => [table, counts]));
    expect(of.children).toEqual({ added: 1, changed: 1, unchanged: 1 });
    expect(of.measurements).toMatchObject({ added: 0, changed: 1 });
    expect(of.events).toMatchObject({ added: 0, changed: 1 });
    const { name, birthDate } = kept.children[2];
    expect(namesakes).toEqual([{ name, birthDate, keptId: 'w2', keptName: name }]);
  });

  it('takes an import back from the children on whom nobody worked since, and says what stays', async () => {
    const seven = exampleCaseload(7, 't');
    const [worn, spare] = ['t5', 't6'].map((childId) => ({
      ...seven.devices.find((d) => d.childId === childId)!,
      id: `${childId}-spare`,
    }));
    const given = { ...seven, devices: [...seven.devices, worn, spare] };
    const records = caseloadParts.map((part) => ({ part, json: JSON.stringify(given[part]) }));
    const checked = { records, planOf: () => ({}), sameName, packed: null, options: {} };
    const { id } = await store.imports.create(checked, systemActor);
    const added = await store.imports.fresh(id);
    await store.caseload.write(given, 'import', today, systemActor);
    await store.imports.committed(id, added);
    const fix = { value: 175, reason: 'misread' };
    await store.measurements.correct('t0-m0left', fix, today, null, clinician);
    await store.children.change('t1', { contact: 'new number' }, today, null, clinician);
    const { id: runId } = await store.recall.save(run, [entry('t2')]);
    const [row] = await store.recall.entries(runId, {}, scheduler);
    await store.recall.setState(row.id, { state: 'called', note: '' }, null, scheduler);
    await store.familyLinks.create('t3', 'mother', 30, new Date(), clinician);
    const reading = { measure: 'foot_length', side: 'left', value: 190 } as const;
    await store.visits.add('t5', { date: today, measurements: [reading] }, today, clinician);
    const mark = { childId: 't5', deviceId: worn.id, date: today, state: 'open' } as const;
    await store.skinChecks.add(skinCheckFields.omit({ id: true }).parse(mark), today, clinician);
    await store.familyQuestions.ask('t6', spare.id, new Date(), clinician);
    // A child is ten records, of which seven can be withdrawn: t4 goes whole, of t0 the corrected reading stays.
    expect(await store.imports.takeBack(id, clinician)).toEqual({
      removed: 10 + 6 * 7 - 1,
      stays: [
        { why: 'children with records or work added since', count: 6 },
        { why: 'devices with events, checks, workshop jobs or questions to the family', count: 8 },
        { why: 'readings corrected since', count: 1 },
      ],
    });
    await expect(store.children.get('t4', clinician)).rejects.toMatchObject({ code: 'not-found' });
    const left = async (child: string) =>
      (await store.children.record(child, clinician)).measurements.map((m) => [m.id, m.value]);
    expect(await left('t0')).toEqual([['t0-m0left', 175]]);
    expect((await left('t5')).map(([, value]) => value)).toEqual([190]);
    const looked = (await store.children.record('t5', clinician)).skinChecks;
    expect(looked.map((c) => [c.deviceId, c.state])).toContainEqual([worn.id, 'open']);
    for (const child of ['t1', 't2', 't3', 't6']) expect(await left(child)).toEqual([]);
  });
});
