import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import { recallColumns } from '../../src/exchange/csv/recall-columns.js';
import { toFhirResources } from '../../src/exchange/fhir/to-fhir.js';
import { recallCalendar } from '../../src/exchange/icalendar/recall-calendar.js';
import { parseCaseload } from '../../src/exchange/parse-caseload.js';
import type { RecallEntry } from '../../src/recall/contract.js';
import { clinicDays } from '../../src/recall/level/clinic-week.js';
import { childRecord } from '../../src/records/records.js';
import { exampleEntry } from '../recall/example-entry.js';
import { exampleCaseload } from '../store/example-children.js';

const TODAY = '2026-11-25';

describe('a spreadsheet', () => {
  it('is read sheet by sheet, with real dates and numbers, like CSV', async () => {
    const text = (value: string) => ({ value, type: String });
    const date = (value: string) => ({
      value: new Date(`${value}T00:00:00Z`),
      type: Date,
      format: 'dd.mm.yyyy',
    });
    const number = (value: number) => ({ value, type: Number });
    const workbook = writeXlsxFile([
      {
        sheet: 'Children',
        data: [
          ['Patient ID', 'DOB', 'Sex', 'Colour'].map(text),
          [number(7), date('2018-03-14'), text('girl'), text('red')],
        ],
      },
      {
        sheet: 'Measurements',
        data: [
          ['Patient', 'Visit date', 'Foot length left (cm)', 'Height (cm)'].map(text),
          [number(7), date('2026-01-10'), number(17.8), number(121)],
          [number(7), text('31.02.2026'), number(18), number(122)],
        ],
      },
    ]);
    const bytes = new Uint8Array(await (await workbook).toBuffer());
    const { caseload, refused } = await parseCaseload([{ name: 'clinic.xlsx', bytes }], { today: TODAY });
    expect(caseload.children).toMatchObject([
      { id: '7', birthDate: '2018-03-14', sex: 'female', extra: { Colour: 'red' } },
    ]);
    expect(caseload.measurements.map((m) => [m.measure, m.side, m.value, m.date])).toEqual([
      ['foot_length', 'left', 178, '2026-01-10'],
      ['stature', 'none', 1210, '2026-01-10'],
    ]);
    expect(refused).toMatchObject([{ file: 'clinic.xlsx Measurements', row: 3, given: '31.02.2026' }]);
  });

  it('that is none is refused with what is accepted', async () => {
    const bytes = new TextEncoder().encode('not a workbook');
    await expect(parseCaseload([{ name: 'clinic.xlsx', bytes }], { today: TODAY })).rejects.toMatchObject({
      code: 'invalid-file',
    });
  });
});

describe('FHIR R4 from another system', () => {
  // Patient and Observation in the shape of the R4 vital-signs examples (hl7.org/fhir/R4/observation-vitalsigns.html);
  // LOINC 8302-2, 29463-7, 9843-4 and UCUM codes as named there.
  const observation = (code: string, value: number, unit: string, more = {}) => ({
    resourceType: 'Observation',
    id: `o-${code}-${unit.replace(/\W/g, '')}`,
    status: 'final',
    code: { coding: [{ system: 'http://loinc.org', code }] },
    subject: { reference: 'urn:uuid:0c3151bd-1cbf-4d64-b04d-cd9187a4c6e0' },
    effectiveDateTime: '2026-03-01T09:30:00+01:00',
    valueQuantity: { value, unit, system: 'http://unitsofmeasure.org', code: unit },
    ...more,
  });
  const bundle = {
    resourceType: 'Bundle',
    type: 'collection',
    entry: [
      {
        fullUrl: 'urn:uuid:0c3151bd-1cbf-4d64-b04d-cd9187a4c6e0',
        resource: {
          resourceType: 'Patient',
          id: 'p1',
          name: [{ given: ['Tuli'], family: 'Mosswhistle' }],
          gender: 'female',
          birthDate: '2018-03-14',
        },
      },
      ...[
        observation('8302-2', 121.4, 'cm'),
        observation('8302-2', 47.8, '[in_i]'),
        observation('29463-7', 23.1, 'kg'),
        observation('9843-4', 51.2, 'cm'),
        observation('8867-4', 88, '/min'),
        observation('8302-2', 12, 'cm', { id: 'slip' }),
        observation('8302-2', 130, 'cm', { id: 'mistaken', status: 'entered-in-error' }),
        {
          resourceType: 'AllergyIntolerance',
          id: 'a',
          patient: { reference: 'Patient/p1' },
          code: { text: 'Latex' },
        },
      ].map((resource) => ({ resource })),
    ],
  };

  it('is read with its codes and units; what is not ours is counted, what is impossible refused', async () => {
    const bytes = new TextEncoder().encode(JSON.stringify(bundle));
    const { caseload, refused, notices } = await parseCaseload([{ name: 'b.json', bytes }], { today: TODAY });
    expect(caseload.children).toMatchObject([
      {
        id: 'p1',
        name: 'Tuli Mosswhistle',
        sex: 'female',
        latexAlert: true,
        walks: true,
        insensateSkin: false,
      },
    ]);
    expect(caseload.measurements.map((m) => [m.measure, m.value, m.date])).toEqual([
      ['stature', 1214, '2026-03-01'],
      ['stature', 1214.12, '2026-03-01'],
      ['weight', 23.1, '2026-03-01'],
      ['head_circumference', 512, '2026-03-01'],
    ]);
    expect(refused).toHaveLength(1);
    expect(refused[0].given).toBe('120');
    expect(notices.join()).toContain('2 Observation');
  });

  // Latex precautions from birth in spina bifida: common practice, no source; the status codes of HL7 R4, from memory.
  it('tells of latex by the alert, and by the diagnosis as not confirmed', () => {
    const told = (child: Record<string, unknown>) =>
      toFhirResources({
        ...exampleCaseload(1),
        children: [childRecord.parse({ id: 'c1', birthDate: '2019-01-01', sex: 'female', ...child })],
      }).flatMap((r) =>
        r.resourceType === 'AllergyIntolerance'
          ? [r.verificationStatus?.coding?.[0].code ?? 'not said to be open']
          : [],
      );
    expect(told({ latexAlert: true })).toEqual(['not said to be open']);
    expect(told({ latexAlert: true, conditions: ['myelomeningocele-low'] })).toEqual(['not said to be open']);
    expect(told({ conditions: ['myelomeningocele-low'] })).toEqual(['unconfirmed']);
    expect(told({ conditions: ['cerebral-palsy'] })).toEqual([]);
  });

  // Patient.deceased[x], HL7 FHIR R4, from memory: whoever reads the file writes to no family of a child who died.
  it('tells of a child who died, and of who left that it is not followed', () => {
    const [died, left, stays] = (['died', 'moved-away', 'active'] as const).map((status) => {
      const child = childRecord.parse({ id: 'c1', birthDate: '2019-01-01', sex: 'female', status });
      return toFhirResources({ ...exampleCaseload(1), children: [child] })[0];
    });
    expect(died).toMatchObject({ active: false, deceasedBoolean: true });
    expect(left).toMatchObject({ active: false });
    for (const patient of [left, stays]) expect(patient).not.toHaveProperty('deceasedBoolean');
    expect(stays).toMatchObject({ active: true });
  });
});

describe('the calendar feed', () => {
  const entry = exampleEntry;
  const options = {
    today: TODAY,
    now: new Date('2026-11-25T08:00:00Z'),
    uidKey: 'key',
    clinic: clinicDays({}),
  };
  // Read by ical.js, an independent parser of RFC 5545.
  const events = (text: string) =>
    new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((v) => new ICAL.Event(v));

  it('is valid, all-day with an exclusive end, and says nothing of the child', () => {
    const text = recallCalendar(
      [entry({}), entry({ childId: 'CHILD-Q2', dueBy: '2026-10-01', late: true })],
      options,
    );
    const [later, overdue] = events(text);
    expect(later.startDate.isDate).toBe(true);
    expect(later.startDate.toString()).toBe('2026-12-31');
    expect(later.endDate.toString()).toBe('2027-01-01');
    expect(overdue.startDate.toString()).toBe(TODAY);
    expect(later.summary).toBe('Clinic appointment to arrange');
    expect(later.component.getFirstPropertyValue('class')).toBe('PRIVATE');
    expect(text).not.toMatch(/CHILD-Q|brace|orthosis|skin/i);
    // RFC 5545 3.1: lines end in CRLF and are folded at 75 octets.
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
  });

  it('spans the working days left of a planned week, and stands on a booked day', () => {
    const plan = (over: Partial<RecallEntry> & { appointment?: string }) =>
      events(recallCalendar([{ ...entry({}), ...over }], options)).map((e) => [
        e.startDate.toString(),
        e.endDate.toString(),
        e.summary,
      ])[0];
    const arrange = 'Clinic appointment to arrange';
    // TODAY is a Wednesday; ends are exclusive (RFC 5545, 3.6.1).
    expect(plan({ plannedWeek: '2026-12-07' })).toEqual(['2026-12-07', '2026-12-12', arrange]);
    expect(plan({ plannedWeek: '2026-11-23' })).toEqual([TODAY, '2026-11-28', arrange]);
    expect(plan({ plannedWeek: '2026-12-07', appointment: '2026-12-09' })).toEqual([
      '2026-12-09',
      '2026-12-10',
      'Clinic appointment',
    ]);
    // A clinic that casts on Sunday rests on Friday; its closed Monday is no day to arrange anything for.
    const sundays = { clinicians: [{ id: 'a', slotsByWeekday: [{ weekday: 7, slots: 2 }] }] };
    const clinic = clinicDays({ ...sundays, clinicClosures: [{ from: '2026-12-07', to: '2026-12-07' }] });
    const [planned] = events(
      recallCalendar([entry({ plannedWeek: '2026-12-07' })], { ...options, clinic }),
    ).map((e) => [e.startDate.toString(), e.endDate.toString()]);
    expect(planned).toEqual(['2026-12-08', '2026-12-14']);
  });

  it('keeps the UID when dates move, grows the sequence, and tells children apart', () => {
    const [before] = events(recallCalendar([entry({})], options));
    const [after] = events(
      recallCalendar([entry({ dueBy: '2027-01-15' })], { ...options, today: '2026-11-26' }),
    );
    const [other] = events(recallCalendar([entry({ childId: 'CHILD-Q2' })], options));
    expect(after.uid).toBe(before.uid);
    expect(after.sequence).toBeGreaterThan(before.sequence);
    expect(other.uid).not.toBe(before.uid);
    // Ids are few and can be tried: without the clinic's own key nobody finds one in a feed.
    const [elsewhere] = events(recallCalendar([entry({})], { ...options, uidKey: 'another' }));
    expect(elsewhere.uid).not.toBe(before.uid);
  });
});

it('a row of the list for a spreadsheet says first what protects the child', () => {
  const alerts = ['skin-cannot-warn', 'latex'] as const;
  const row = recallColumns(exampleEntry({ alerts }), { id: 'c', name: 'Ida', contact: '', language: 'en' });
  expect(row.alerts).toBe('skin cannot warn, latex');
  expect(Object.keys(row).indexOf('alerts')).toBeLessThan(Object.keys(row).indexOf('action'));
});
