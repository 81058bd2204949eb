/** One check a record: what cannot be is refused in the same words by interface and page, and nothing is stored. */
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import { csvTables } from '../../src/exchange/csv/write-caseload.js';
import { toFhirBundle, toFhirResources } from '../../src/exchange/fhir/to-fhir.js';
import { type NamedFile, parseCaseload } from '../../src/exchange/parse-caseload.js';
import type { Caseload } from '../../src/records/caseload.js';
import { deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import { childRecord, markerRecord, measurementRecord } from '../../src/records/records.js';
import { type Role, systemActor } from '../../src/store/contract.js';
import { exampleCaseload } from '../store/example-children.js';
import { type TestService, testService, testToday } from './test-service.js';

let service: TestService;
beforeAll(async () => {
  service = await testService();
});
afterAll(() => service?.stop());

const verdict = { kind: 'verdict', date: '2026-01-20', verdict: 'good' };
const adjusted = { kind: 'adjusted', date: '2026-01-20', measure: 'foot_length', changeMm: 3 };
const device = { family: 'solid-afo', side: 'left', castDate: '2026-01-02' };
const child = { id: 'new-1', birthDate: '2019-03-01', sex: 'female' };
const boneAge = { kind: 'bone-age', date: '2026-01-20', value: 7 };
const offset = { kind: 'maturity-offset', date: '2026-01-20', value: -3, sdYears: 0.5 };
const reading = { measure: 'foot_length', side: 'left', value: 190, date: '2026-01-20' };

const events = '/api/devices/c0-d/events';
const devices = '/api/children/c0/devices';
const children = '/api/children';
const markers = '/api/children/c0/markers';
const readings = '/api/children/c0/measurements';
const whatIf = '/api/children/c0/what-if';
const room = { measure: 'foot_length', sides: ['left'], allowancesMm: [8] };

describe('the interface refuses', () => {
  it.each([
    ['a verdict of 2099', events, { ...verdict, date: '2099-01-01' }, 'date'],
    ['a verdict before the cast', events, { ...verdict, date: '2025-06-01' }, 'date'],
    ['a verdict without a verdict', events, { ...verdict, verdict: null }, 'verdict'],
    ['an adjustment of 99999 mm', events, { ...adjusted, changeMm: 99_999 }, 'changeMm'],
    ['a hip at 91 degrees', events, { ...verdict, hipAngleLeft: 91 }, 'hipAngleLeft'],
    ['a hip angle of an adjustment', events, { ...adjusted, hipAngleRight: 40 }, 'hipAngleRight'],
    [
      'a set angle that ends before it begins',
      devices,
      { ...device, hipAngleFrom: 50, hipAngleTo: 40 },
      'hipAngleTo',
    ],
    ['a head length on an AFO', events, { ...verdict, measure: 'head_length' }, 'measure'],
    ['a verdict on the other leg', events, { ...verdict, side: 'right' }, 'side'],
    ['an event of tomorrow', events, { kind: 'broken', date: '2026-02-02' }, 'date'],
    ['an unknown family', devices, { ...device, family: 'no-such-family' }, 'family'],
    ['a cast in 2099', devices, { ...device, castDate: '2099-01-01' }, 'castDate'],
    ['a cast before birth', devices, { ...device, castDate: '2018-02-28' }, 'castDate'],
    ['a fitting before the cast', devices, { ...device, fittedDate: '2026-01-01' }, 'fittedDate'],
    ['a fitting of tomorrow', devices, { ...device, fittedDate: '2026-02-02' }, 'fittedDate'],
    [
      'a device being made that was fitted',
      devices,
      { ...device, status: 'ordered', fittedDate: '2026-01-20' },
      'status',
    ],
    ['a cast imagined too far ahead', whatIf, { ...room, castDate: '2028-02-02' }, 'castDate'],
    ['a cast imagined too long ago', whatIf, { ...room, castDate: '2024-02-01' }, 'castDate'],
    [
      'to look further than a brace lasts',
      whatIf,
      { ...room, lastUntil: [{ until: '2031-02-02', odds: 0.9 }] },
      'until',
    ],
    ['a list of a month that is too far', '/api/recall-runs', { month: '2028-03' }, 'month'],
    ['an AFO of no side', devices, { ...device, side: 'none' }, 'side'],
    ['a left helmet', devices, { ...device, family: 'cranial-orthosis' }, 'side'],
    ['a limit no foot has', devices, { ...device, limitsMm: { foot_length: 9999 } }, 'limitsMm.foot_length'],
    [
      'an allowance of a metre',
      devices,
      { ...device, allowancesMm: { foot_length: 1000 } },
      'allowancesMm.foot_length',
    ],
    ['a birth in 2099', children, { ...child, birthDate: '2099-01-01' }, 'birthDate'],
    ['bone age 1e100', markers, { ...boneAge, value: 1e100 }, 'value'],
    ['bone age of tomorrow', markers, { ...boneAge, date: '2026-02-02' }, 'date'],
    ['a hand stage between stages', markers, { ...boneAge, kind: 'hand-stage', value: 2.5 }, 'value'],
    ['a pelvis stage of 6', markers, { ...boneAge, kind: 'pelvis-stage', value: 6 }, 'value'],
    ['an offset as sure as 1e-12', markers, { ...offset, sdYears: 1e-12 }, 'sdYears'],
    ['technical error 1e-300', readings, { ...reading, technicalError: 1e-300 }, 'technicalError'],
    ['technical error 1e300', readings, { ...reading, technicalError: 1e300 }, 'technicalError'],
    ['a reading of tomorrow', readings, { ...reading, date: '2026-02-02' }, 'date'],
    ['a reading before birth', readings, { ...reading, date: '2018-02-28' }, 'date'],
  ])('%s', async (_, url, payload, field) => {
    const before = await service.store.caseload.all();
    const answer = await service.as('clinician', { method: 'POST', url, payload });
    expect(answer.statusCode).toBe(422);
    expect(answer.json()).toMatchObject({ code: 'invalid-value', field });
    expect(answer.json().accepted).toBeTruthy();
    expect(await service.store.caseload.all()).toEqual(before);
  });

  it('takes the same records where they can be', async () => {
    for (const [url, payload] of [
      [events, verdict],
      [events, adjusted],
      [devices, device],
      [children, child],
      [markers, boneAge],
      [markers, offset],
      [readings, { ...reading, technicalError: 1 }],
    ] as const)
      expect((await service.as('clinician', { method: 'POST', url, payload })).statusCode, url).toBe(201);
  });

  it('a change that makes a record impossible: born after its first reading, cast after today', async () => {
    const change = async (url: string, payload: object) =>
      service.as('clinician', { method: 'PATCH', url, payload, headers: { 'if-match': '*' } });
    const born = await change('/api/children/c0', { birthDate: '2025-06-03' });
    expect(born.json()).toMatchObject({ status: 422, field: 'birthDate' });
    expect(born.body).not.toContain('2025-06-03');
    expect((await change('/api/devices/c0-d', { castDate: '2099-01-01' })).json()).toMatchObject({
      status: 422,
      field: 'castDate',
    });
  });
});

describe('a page refuses in the words of the interface', () => {
  it.each([
    ['c1/devices', devices, { ...device, castDate: '2099-01-01' }],
    ['c1/devices', devices, { ...device, family: 'no-such-family' }],
    ['c1/devices/c1-d/events', events, { kind: 'verdict', date: '2099-01-01', verdict: 'good' }],
    ['c1/devices/c1-d/events', events, { kind: 'mislaid', date: '2026-01-20' }],
    ['c1/devices/c1-d/events', events, { kind: 'retired', date: '2026-01-20', endReason: 'tired of it' }],
    ['c1/devices/c1-d/events', events, { kind: 'broken', date: '20 January' }],
    ['c1/devices/c1-d/events', events, { kind: 'broken', date: '2026-01-20', note: 'x'.repeat(1001) }],
    ['c1/visits/move', '/api/children/c1/visits/move', { from: '2026-01-20', to: 'soon', reason: 'slip' }],
    ['c1/links', '/api/children/c1/family-links', { label: 'x'.repeat(81) }],
    [
      'c1/devices/c1-d/events',
      events,
      { kind: 'verdict', date: '2026-01-20', verdict: 'good', measure: 'head_length' },
    ],
  ])('%s', async (page, url, record) => {
    const said = (await service.as('clinician', { method: 'POST', url, payload: record })).json().accepted;
    const shown = await submit('clinician', `/children/${page}`, { footplate: 'full', ...record });
    expect(shown.statusCode).toBe(422);
    expect(plain(shown.body)).toContain(said);
  });

  it('a birth in 2099 and an account without a name', async () => {
    const newborn = { ...child, id: 'new-2', birthDate: '2099-01-01' };
    const said = (await service.as('clinician', { method: 'POST', url: children, payload: newborn })).json();
    const shown = await submit('clinician', '/children', newborn);
    expect([shown.statusCode, plain(shown.body).includes(said.detail)]).toEqual([422, true]);
    const account = { name: '', role: 'clinician', password: 'a long enough password' };
    const nobody = await submit('administrator', '/users', account);
    expect(nobody.statusCode).toBe(422);
    expect(plain(nobody.body)).toContain('2 to 80 letters');
    await expect(
      service.store.users.create({ ...account, role: 'clinician' }, systemActor),
    ).rejects.toMatchObject({ code: 'invalid-value', place: { field: 'name' } });
    expect((await service.store.users.list()).map((u) => u.name)).not.toContain('');
  });
});

describe('a file refuses in the words of the interface, as CSV, workbook or FHIR', () => {
  const one = exampleCaseload(1);
  const eventOf = (more: object) => ({
    events: [deviceEventRecord.parse({ id: 'wrong', deviceId: 'c0-d', ...more })],
  });
  const deviceOf = (more: object) => ({
    devices: [...one.devices, deviceRecord.parse({ id: 'wrong', childId: 'c0', ...device, ...more })],
  });
  const readingOf = (more: object) => ({
    measurements: [measurementRecord.parse({ id: 'wrong', childId: 'c0', ...reading, ...more })],
  });
  const markerOf = (more: object) => ({
    markers: [markerRecord.parse({ id: 'wrong', childId: 'c0', ...boneAge, ...more })],
  });
  it.each<[string, string, object, Partial<Caseload>]>([
    ...[
      { ...verdict, date: '2099-01-01' },
      { ...verdict, date: '2025-06-01' },
      { ...adjusted, changeMm: 99_999 },
      { ...verdict, measure: 'head_length' },
      { ...verdict, side: 'right' },
    ].map((e) => [JSON.stringify(e), events, e, eventOf(e)] as [string, string, object, Partial<Caseload>]),
    ...[{ castDate: '2099-01-01' }, { castDate: '2018-02-28' }, { fittedDate: '2026-01-01' }].map(
      (d) =>
        [JSON.stringify(d), devices, { ...device, ...d }, deviceOf(d)] as [
          string,
          string,
          object,
          Partial<Caseload>,
        ],
    ),
    [
      'a reading of tomorrow',
      readings,
      { ...reading, date: '2026-02-02' },
      readingOf({ date: '2026-02-02' }),
    ],
    [
      'a technical error of 300',
      readings,
      { ...reading, technicalError: 300 },
      readingOf({ technicalError: 300 }),
    ],
    [
      'a hand stage of 2.5',
      markers,
      { ...boneAge, kind: 'hand-stage', value: 2.5 },
      markerOf({ kind: 'hand-stage', value: 2.5 }),
    ],
    [
      'a birth in 2099',
      children,
      { ...child, birthDate: '2099-01-01' },
      { children: [childRecord.parse({ ...child, birthDate: '2099-01-01' })] },
    ],
  ])('%s', async (_, url, payload, wrong) => {
    const said = (await service.as('clinician', { method: 'POST', url, payload })).json();
    const why = said.detail.replace(/^.*?: \w+( '[^']*')? /, '');
    const caseload = {
      ...one,
      measurements: [],
      skinChecks: [],
      jobs: [],
      markers: [],
      events: [],
      ...wrong,
    };
    for (const file of await filesOf(caseload)) {
      const { refused } = await parseCaseload(file, { today: testToday, takeProbable: true });
      expect(
        refused.map((r) => `${r.why}; accepted: ${r.accepted}`),
        file[0].name,
      ).toContain(why);
    }
    await expect(
      service.store.caseload.write(wrong, 'a program', testToday, systemActor),
    ).rejects.toMatchObject({ place: { field: said.field, accepted: said.accepted } });
  });

  it('and an unknown family', async () => {
    const wrong = deviceOf({ family: 'no-such-family' });
    for (const file of await filesOf({ ...one, ...wrong })) {
      const { caseload } = await parseCaseload(file, { today: testToday, takeProbable: true });
      expect(
        caseload.devices.map((d) => d.id),
        file[0].name,
      ).toEqual(['c0-d']);
    }
    await expect(
      service.store.caseload.write(wrong, 'a program', testToday, systemActor),
    ).rejects.toMatchObject({ place: { field: 'family' } });
  });

  it('the store takes no change of birth after the first reading', async () => {
    const born = { children: [childRecord.parse({ ...one.children[0], birthDate: '2025-06-03' })] };
    await expect(
      service.store.caseload.write(born, 'a program', testToday, systemActor),
    ).rejects.toMatchObject({
      place: { field: 'birthDate' },
    });
    expect(await service.store.caseload.all()).toMatchObject({
      children: expect.arrayContaining([one.children[0]]),
    });
  });
});

/** The same records as every kind of file. */
async function filesOf(caseload: Caseload): Promise<NamedFile[][]> {
  const bytes = (text: string) => new TextEncoder().encode(text);
  const tables = Object.entries(csvTables(caseload));
  const cells = (text: string): { value: string; type: StringConstructor }[][] =>
    parse(text, { bom: true }).map((row: string[]) => row.map((value) => ({ value, type: String })));
  const workbook = writeXlsxFile(
    tables.map(([name, text]) => ({ sheet: name.replace('.csv', ''), data: cells(text) })),
  );
  const fhir = JSON.stringify(toFhirBundle(toFhirResources(caseload)));
  return [
    tables.map(([name, text]) => ({ name, bytes: bytes(text) })),
    [{ name: 'all.xlsx', bytes: new Uint8Array(await (await workbook).toBuffer()) }],
    [{ name: 'all.json', bytes: bytes(fhir) }],
  ];
}

/** As the page's form sends it. */
const submit = (role: Role, url: string, fields: Record<string, string>) =>
  service.as(role, {
    method: 'POST',
    url,
    headers: { accept: 'text/html', 'content-type': 'application/x-www-form-urlencoded' },
    payload: new URLSearchParams(fields).toString(),
  });

const plain = (html: string) =>
  html.replaceAll('&#39;', "'").replaceAll('&quot;', '"').replaceAll('&amp;', '&').replaceAll('&#x27;', "'");
