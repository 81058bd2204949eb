import { describe, expect, it } from 'vitest';
import { safeCell } from '../../src/exchange/csv/row-reader.js';
import { parseCaseload } from '../../src/exchange/parse-caseload.js';

const TODAY = '2026-11-25';
const read = (name: string, content: unknown) =>
  parseCaseload(
    [
      {
        name,
        bytes: new TextEncoder().encode(typeof content === 'string' ? content : JSON.stringify(content)),
      },
    ],
    { today: TODAY },
  );
const patient = { resourceType: 'Patient', id: 'p1', birthDate: '2018-03-14', gender: 'female' };

describe('FHIR that is not as R4 says', () => {
  it.each([
    ['an identifier that is no list', { ...patient, identifier: { value: 'x' } }, 'Patient.identifier'],
    ['a numeric birth date', { ...patient, birthDate: 20180314 }, 'Patient.birthDate'],
    ['null for a name', { ...patient, name: [null] }, 'Patient.name.0'],
    ['a name of texts', { ...patient, name: ['Tuli'] }, 'Patient.name.0'],
    ['a given name that is a text', { ...patient, name: [{ given: 'Tuli' }] }, 'Patient.name.0.given'],
    ['telecom as text', { ...patient, telecom: 'phone' }, 'Patient.telecom'],
    ['an extension that is null', { ...patient, extension: [null] }, 'Patient.extension.0'],
    ['a language left out', { ...patient, communication: [{}] }, 'Patient.communication.0.language'],
    ['gender as an object', { ...patient, gender: {} }, 'Patient.gender'],
    ['an id that is a number', { ...patient, id: 7 }, 'Patient.id'],
    [
      'a code without a list',
      { resourceType: 'Observation', code: { coding: 'x' } },
      'Observation.code.coding',
    ],
    ['a subject as text', { resourceType: 'Observation', subject: 'Patient/p1' }, 'Observation.subject'],
    [
      'a value as text',
      { resourceType: 'Observation', valueQuantity: { value: '12' } },
      'Observation.valueQuantity.value',
    ],
    [
      'a date as a list',
      { resourceType: 'Observation', effectiveDateTime: [] },
      'Observation.effectiveDateTime',
    ],
    ['a condition without words', { resourceType: 'Condition', code: { text: 5 } }, 'Condition.code.text'],
    ['an output that is null', { resourceType: 'Task', output: [null] }, 'Task.output.0'],
    ['a device of a number', { resourceType: 'Device', type: 5 }, 'Device.type'],
    [
      'a use without a device',
      { resourceType: 'DeviceUseStatement', device: [] },
      'DeviceUseStatement.device',
    ],
    ['null', null, 'resourceType'],
    ['a number', 5, 'resourceType'],
    ['a list', [patient], 'resourceType'],
    ['no type', { id: 'x' }, 'resourceType'],
    ['a type that is no word', { resourceType: '__proto__' }, 'resourceType'],
  ])('%s: the resource is refused by its place, the others are read', async (_, wrong, column) => {
    const { caseload, refused } = await read('b.json', {
      resourceType: 'Bundle',
      entry: [{ resource: { ...patient, id: 'good' } }, { resource: wrong }],
    });
    expect(caseload.children.map((child) => child.id)).toEqual(['good']);
    expect(refused).toMatchObject([{ file: 'b.json', row: 2, column }]);
    expect(refused[0].accepted).toContain('FHIR R4');
  });

  it.each([
    ['entry: [null]', { resourceType: 'Bundle', entry: [null] }],
    ['entry: 5', { resourceType: 'Bundle', entry: 5 }],
    ['entry: [5]', { resourceType: 'Bundle', entry: [5] }],
  ])('a bundle with %s is refused by place', async (_, bundle) => {
    const { refused } = await read('b.json', bundle);
    expect(refused).toMatchObject([{ file: 'b.json', row: 1 }]);
  });

  it.each(['null', '5', '"x"', '[null]', '[[]]', '{}', '{"resourceType":5}'])(
    'a file of %s is no FHIR, in words',
    async (text) => {
      await expect(read('b.json', text)).rejects.toMatchObject({ code: 'invalid-file' });
    },
  );

  it.each([
    ['intended', 'ordered'],
    ['active', 'worn'],
    ['completed', 'retired'],
  ])('a use that is %s is of a device that is %s', async (status, ours) => {
    const family = { coding: [{ system: 'urn:doorpost:code-system:device-family', code: 'solid-afo' }] };
    const { caseload, refused } = await read('b.json', [
      patient,
      {
        resourceType: 'Device',
        id: 'd',
        type: family,
        patient: { reference: 'Patient/p1' },
        manufactureDate: '2026-05-01',
      },
      {
        resourceType: 'DeviceUseStatement',
        device: { reference: 'Device/d' },
        status,
        bodySite: { text: 'left' },
      },
    ]);
    expect(refused).toEqual([]);
    expect(caseload.devices[0]).toMatchObject({ status: ours, side: 'left' });
  });

  it('words that every object has inside it name nothing', async () => {
    const coding = (system: string, code: string) => ({ coding: [{ system, code }] });
    const site = { coding: [{ code: 'constructor' }] };
    const { caseload, refused } = await read('b.json', [
      patient,
      { resourceType: 'Observation', code: coding('urn:doorpost:code-system:measure', 'constructor') },
      {
        resourceType: 'Observation',
        code: coding('http://loinc.org', '8302-2'),
        bodySite: site,
        valueQuantity: { value: 1, code: 'toString' },
      },
      { resourceType: 'Device', id: 'd', status: 'constructor' },
      {
        resourceType: 'DeviceUseStatement',
        device: { reference: 'Device/d' },
        status: 'constructor',
        bodySite: site,
      },
      {
        resourceType: 'Task',
        status: 'constructor',
        code: coding('urn:doorpost:code-system:device-family', 'solid-afo'),
        output: [
          { type: coding('urn:doorpost:code-system:workshop-stage', '__proto__'), valueDate: '2024-01-01' },
        ],
      },
    ]);
    expect(caseload.children).toHaveLength(1);
    expect(refused.every(({ why }) => typeof why === 'string' && why.length > 0)).toBe(true);
  });
});

describe('tables with words that every object has inside it', () => {
  const words = ['constructor', '__proto__', 'toString', 'hasOwnProperty', 'valueOf'];

  it.each(words)('%s as a heading is a column of the clinic’s own', async (word) => {
    const { caseload } = await read('children.csv', `id,birth_date,sex,${word}\nc1,2018-03-14,female,red\n`);
    expect(Object.entries(caseload.children[0].extra)).toEqual([[word, 'red']]);
    expect(({} as Record<string, unknown>).red).toBeUndefined();
  });

  it.each(words)('%s as an id, a measure, a side, a family, a word of a list', async (word) => {
    const files = {
      'children.csv': `id,birth_date,sex,status\n${word},2018-03-14,female,\nc2,2018-03-14,${word},${word}\n`,
      'measurements.csv': `child_id,date,measure,side,value,${word}_left_cm\n${word},2024-03-14,${word},left,18 cm,3\n${word},2024-03-14,foot_length,${word},18 ${word},3\n`,
      'devices.csv': `id,child_id,family,side,cast_date,limit_${word}_mm\n${word},${word},${word},left,2024-03-14,3\n`,
      'events.csv': `device_id,date,kind,verdict\n${word},2024-03-14,${word},${word}\n`,
      'markers.csv': `child_id,date,kind,value\n${word},2024-03-14,${word},1\n`,
      'jobs.csv': `device_id,family,cast\n${word},${word},2024-03-14\n`,
    };
    const { caseload, refused } = await parseCaseload(
      Object.entries(files).map(([name, text]) => ({ name, bytes: new TextEncoder().encode(text) })),
      { today: TODAY },
    );
    expect(caseload.children.map((child) => [child.id, child.sex])).toEqual([
      [word, 'female'],
      ['c2', 'unknown'],
    ]);
    expect([
      caseload.measurements,
      caseload.devices,
      caseload.events,
      caseload.markers,
      caseload.jobs,
    ]).toEqual([[], [], [], [], []]);
    expect(refused.length).toBeGreaterThan(6);
  });
});

describe('cells made to take time', () => {
  it.each([
    ['a number', `1${' '.repeat(100_000)}x`],
    ['a date', `1${' '.repeat(100_000)}x`],
    ['a word', 'constructor'.repeat(10_000)],
  ])('%s of a hundred thousand characters is refused at once', async (_, cell) => {
    const started = process.cpuUsage();
    const { refused } = await read(
      'measurements.csv',
      `child_id,date,measure,side,value\nc1,"${cell}","${cell}",left,"${cell}"\n`,
    );
    expect(refused.length).toBeGreaterThan(0);
    const { user, system } = process.cpuUsage(started);
    expect((user + system) / 1000).toBeLessThan(1000);
  });
});

describe('a cell that a spreadsheet would run', () => {
  // Characters as the OWASP page on CSV injection lists them, with the fullwidth forms; from memory.
  it.each([
    '=1+1',
    '+1',
    '-1',
    '@SUM(A1)',
    '\t=1',
    '\r=1',
    '\n=1',
    '\n',
    ' =1',
    '＝1+1',
    '＋1',
    '－1',
    '＠SUM(A1)',
    "'=1",
    "'＝1",
  ])('%j is quoted', (text) => {
    expect(safeCell(text)).toBe(`'${text}`);
  });
  it.each(['1', 'a=b', 'Tuli', "it's", ''])('%j is left alone', (text) => {
    expect(safeCell(text)).toBe(text);
  });
});

describe('what keeps a child safe is read, or refused where it cannot be', () => {
  it('of a FHIR patient: who died or was discharged is on no list, and walks unless it is said', async () => {
    const { caseload } = await read('b.json', [
      { ...patient, deceasedBoolean: true },
      { ...patient, id: 'p2', active: false },
      { ...patient, id: 'p3' },
    ]);
    expect(caseload.children.map((c) => c.status)).toEqual(['died', 'discharged', 'active']);
    expect(caseload.children[2].walks).toBe(true);
  });

  // SNOMED CT 7771000 |Left|, 24028007 |Right|: from memory.
  it.each([
    [{ coding: [{ system: 'http://snomed.info/sct', code: '7771000' }] }, 'left'],
    [{ coding: [{ system: 'http://snomed.info/sct', code: '24028007' }] }, 'right'],
    [{ text: 'Left foot' }, 'left'],
    [{ text: 'right foot' }, 'right'],
  ])('the side of a FHIR reading: %j', async (bodySite, side) => {
    const { caseload } = await read('b.json', [
      patient,
      {
        resourceType: 'Observation',
        id: 'o',
        status: 'final',
        code: { coding: [{ system: 'urn:doorpost:code-system:measure', code: 'foot_length' }] },
        subject: { reference: 'Patient/p1' },
        effectiveDateTime: '2026-03-01',
        bodySite,
        valueQuantity: { value: 18, code: 'cm' },
      },
    ]);
    expect(caseload.measurements.map((m) => [m.side, m.value])).toEqual([[side, 180]]);
  });

  it('of markers and skin checks in tables', async () => {
    const files = {
      'children.csv': 'id,birth_date,sex\nk1,2014-03-01,female\n',
      'markers.csv': `child_id,date,kind,value
k1,2026-01-10,pelvis-stage,4
k1,2026-01-10,pelvis-stage,9
k1,2027-01-10,menarche,
k1,2026-01-10,bone-age,
nobody,2026-01-10,bone-age,12
`,
      'skin.csv': 'child_id,date,state,cannot_warn\nk1,2026-01-10,,yes\nk1,2026-01-11,open,yes\n',
    };
    const { caseload, refused } = await parseCaseload(
      Object.entries(files).map(([name, text]) => ({ name, bytes: new TextEncoder().encode(text) })),
      { today: TODAY },
    );
    expect(caseload.markers.map(({ kind, value }) => [kind, value])).toEqual([['pelvis-stage', 4]]);
    expect(caseload.skinChecks.map(({ state, cannotWarn }) => [state, cannotWarn])).toEqual([['open', true]]);
    expect(refused.map(({ file, row, column }) => [file, row, column])).toEqual([
      ['markers.csv', 3, 'value'],
      ['markers.csv', 4, 'date'],
      ['markers.csv', 5, 'value'],
      ['markers.csv', 6, 'child_id'],
      ['skin.csv', 2, 'state'],
    ]);
  });
});
