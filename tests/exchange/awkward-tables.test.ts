import { describe, expect, it } from 'vitest';
import { columns as tableColumns } from '../../src/exchange/csv/columns.js';
import { readDate } from '../../src/exchange/csv/read-date.js';
import { readNumber } from '../../src/exchange/csv/read-number.js';
import { readSize } from '../../src/exchange/csv/read-size.js';
import { parseCaseload } from '../../src/exchange/parse-caseload.js';
import { cellAge, cellDate } from '../../src/exchange/sheets/cell-date.js';
import { loadRules } from '../../src/rules/load-rules.js';

const TODAY = '2026-11-25';
const bytes = (text: string) => new TextEncoder().encode(text);
const parse = (files: Record<string, string>, options = {}) =>
  parseCaseload(
    Object.entries(files).map(([name, text]) => ({ name, bytes: bytes(text) })),
    { today: TODAY, ...options },
  );
const children = 'id,birth_date,sex\nA,2018-03-14,f\nB,2016-07-02,m\n';
const long = (...rows: string[]) => `child_id,date,measure,side,value,unit\n${rows.join('\n')}\n`;

describe('dates', () => {
  // Serials of the 1900 date system: ECMA-376 part 1, 18.17.4.1: 1 January 1900 is 1; 45368 = 2024-03-17 by
  // Python's datetime.date(1899, 12, 30) + timedelta(45368), typed in.
  it.each([
    ['2024-03-17', '2024-03-17'],
    ['2024-03-17T10:30:00', '2024-03-17'],
    ['2024/3/17', '2024-03-17'],
    ['20240317', '2024-03-17'],
    ['17.03.2024', '2024-03-17'],
    ['4.3.2024', '2024-03-04'],
    ['17/03/2024', '2024-03-17'],
    ['03/17/2024', '2024-03-17'],
    ['05/05/2024', '2024-05-05'],
    ['17 Mar 2024', '2024-03-17'],
    ['March 17, 2024', '2024-03-17'],
    ['45368', '2024-03-17'],
    ['45368.75', '2024-03-17'],
    ['2024-02-29', '2024-02-29'],
  ])('%s is read as %s', (text, date) => expect(readDate(text)).toBe(date));

  it.each([
    '2023-02-29',
    '31.04.2024',
    '03/04/2024',
    '17.03.24',
    '12',
    '7',
    'yesterday',
    '2024-13-01',
    '0',
    '1899-12-31',
    '2200-01-01',
  ])('%s is refused with a reason', (text) => expect(readDate(text)).toHaveProperty('why'));

  it('an ambiguous date is read once its order is said', () => {
    expect(readDate('03/04/2024', 'dmy')).toBe('2024-04-03');
    expect(readDate('03/04/2024', 'mdy')).toBe('2024-03-04');
    expect(readDate('25/04/2024', 'mdy')).toHaveProperty('why');
  });
});

describe('dates and ages as a sheet writes them', () => {
  it.each([
    ['3/4/19', '2019-04-03', '2019-03-04'],
    ['3/4/98', '1998-04-03', '1998-03-04'],
    ['25/4/2019', '2019-04-25', null],
    ['14. März 2021', '2021-03-14', '2021-03-14'],
  ])('%s', (cell, dayFirst, monthFirst) =>
    expect(cellDate(cell, '2026-11-25')).toMatchObject({ dayFirst, monthFirst }),
  );
  it.each([
    ['6y 6m', 6.5],
    ['7;3', 7.25],
    ['18 Mo', 1.5],
    ['9/12', 0.75],
    ['1 6/12', 1.5],
    ['26 weeks', 182 / 365.25],
  ])('%s is %d years', (cell, years) => expect(cellAge(cell)).toBeCloseTo(years, 10));
});

describe('numbers', () => {
  it.each([
    ['17,5', 17.5],
    ['17.5', 17.5],
    ['1.234,5', 1234.5],
    ['1,234.5', 1234.5],
    ['1 234', 1234],
    ["1'234.5", 1234.5],
    ['.5', 0.5],
    ['-3', -3],
  ])('%s is %d', (text, value) => expect(readNumber(text)).toBe(value));
  it.each(['', '17,5,3', '1.2.3', '12x', '--3', '1,23,456.7'])('%s is no number', (text) =>
    expect(readNumber(text)).toBeNull(),
  );
});

describe('sizes', () => {
  it.each([
    ['17.5 cm', ['', 'mm', ''], 'is said to be in cm and in mm'],
    ['175', ['', '', ''], 'has no unit'],
    ['17.5 kg', ['', '', ''], 'is given in kg'],
    ['175', ['furlong', '', ''], 'has the unknown unit "furlong"'],
    ['1750', ['mm', '', ''], 'which no body has'],
  ] as const)('%s beside %j is refused', (cell, beside, why) =>
    expect(readSize(cell, 'foot_length', beside)).toMatchObject({ why: expect.stringContaining(why) }),
  );
});

describe('readings', () => {
  it('takes units from the cell, the column, the heading or the setting', async () => {
    const cell = await parse({
      'children.csv': children,
      'measurements.csv': long('A,2026-01-10,foot length,L,"17,5 cm",'),
    });
    const column = await parse({
      'children.csv': children,
      'measurements.csv': long('A,2026-01-10,foot_length,left,6.9,inch'),
    });
    const heading = await parse({
      'children.csv': children,
      'visits.csv': 'child id;visit date;foot length left (cm);weight [kg]\nA;10.01.2026;17,5;25,4\n',
    });
    const setting = await parse(
      { 'children.csv': children, 'measurements.csv': long('A,2026-01-10,foot_length,left,17.5,') },
      { lengthUnit: 'cm' },
    );
    const values = [cell, column, heading, setting].map((p) => p.caseload.measurements.map((m) => m.value));
    // An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    expect(values).toEqual([[175], [175.26], [175, 25.4], [175]]);
    expect(cell.caseload.measurements[0].entered).toBe('17,5 cm');
    // 45 may be pounds or kilograms at this age: only what is said tells. A pound is 0.45359237 kg exactly (the same agreement).
    const said: Record<string, string>[] = [
      { 'measurements.csv': long('A,2026-01-10,weight,none,45 lb,') },
      { 'measurements.csv': long('A,2026-01-10,weight,none,45,lb') },
      { 'visits.csv': 'child id;visit date;weight [lb]\nA;10.01.2026;45\n' },
      { 'measurements.csv': long('A,2026-01-10,weight,none,45,kg') },
    ];
    const weights = await Promise.all(said.map((table) => parse({ 'children.csv': children, ...table })));
    const kg = weights.map((p) => p.caseload.measurements[0].value);
    for (const value of kg.slice(0, 3)) expect(value).toBeCloseTo(45 * 0.45359237, 6);
    expect(kg[3]).toBe(45);
  });

  it.each([
    ['A,2026-01-10,foot_length,left,175,ells', 'unit', /unknown unit/],
    ['A,2026-01-10,foot_length,left,17.5 cm,mm', 'value', /in cm and in mm/],
    ['A,2026-01-10,foot_length,left,6.9,mm', 'value', /6\.9 inch = 175\.3 mm/],
    ['A,2026-01-10,foot_length,left,17.5,kg', 'value', /given in kg/],
    ['A,2026-01-10,foot_length,,175,mm', 'side', /which side/],
    ['A,2026-01-10,elbow_width,left,175,mm', 'measure', /not a measure/],
    ['A,2026-02-30,foot_length,left,175,mm', 'date', /not a date/],
    ['A,2027-01-10,foot_length,left,175,mm', 'date', /future/],
    ['A,2018-01-10,foot_length,left,75,mm', 'date', /before birth/],
    ['C,2026-01-10,foot_length,left,175,mm', 'child_id', /no child/],
    ['A,,foot_length,left,175,mm', 'date', /missing/],
    ['A,2026-01-10,foot_length,left,,mm', 'value', /missing/],
    ['A,2026-01-10,foot_length,left,abc,mm', 'value', /not a size/],
  ])('refuses %s and keeps the good row', async (row, column, why) => {
    const good = 'B,2026-01-10,foot_length,right,205,mm';
    const { caseload, refused } = await parse({
      'children.csv': children,
      'measurements.csv': long(row, good),
    });
    expect(refused).toHaveLength(1);
    expect(refused[0]).toMatchObject({ file: 'measurements.csv', row: 2, column });
    expect(refused[0].why).toMatch(why);
    expect(refused[0].accepted).not.toBe('');
    expect(caseload.measurements.map((m) => m.value)).toEqual([205]);
  });

  it('takes a row that repeats another once, and one birth date for a child', async () => {
    const row = 'A,2026-01-10,foot_length,left,175,mm';
    const again = await parse({
      'children.csv': children,
      'measurements.csv': long(row, row, `${row.replace('175', '176')}`),
    });
    expect(again.caseload.measurements.map((m) => m.value)).toEqual([175, 176]);
    const twice = await parse({ 'children.csv': `${children}A,2015-01-01,m\n` });
    expect(twice.refused.map((r) => [r.row, r.column])).toContainEqual([4, 'birth_date']);
    expect(twice.caseload.children.map((c) => c.birthDate)).toEqual(['2018-03-14', '2016-07-02']);
  });

  it('of its own tables takes a row once and an id once, the first of each', async () => {
    const row = 'k1,A,2026-01-10,bone-age,7';
    const markers = `id,child_id,date,kind,value\n${row}\n${row}\nk1,A,2026-02-10,bone-age,8\n`;
    const { caseload, refused } = await parse({ 'children.csv': children, 'markers.csv': markers });
    expect(caseload.markers).toMatchObject([{ id: 'k1', value: 7 }]);
    expect(refused.map((r) => [r.row, r.why])).toEqual([
      [3, 'repeats row 2 in every cell; row 2 is kept'],
      [4, 'is already the id of row 2'],
    ]);
  });

  it('whether skin can warn is yes or no, not what it takes perhaps for', async () => {
    const skin = 'child_id,date,state,cannot_warn\nA,2026-01-10,none,perhaps\nB,2026-01-10,none,yes\n';
    const { caseload, refused } = await parse({ 'children.csv': children, 'skin.csv': skin });
    expect(caseload.skinChecks).toMatchObject([{ childId: 'B', cannotWarn: true }]);
    expect(refused).toMatchObject([{ row: 2, column: 'cannot_warn', why: 'is neither yes nor no' }]);
  });

  it('gives the same rows the same ids in every import', async () => {
    const rows = long('A,2026-01-10,foot_length,left,175,mm', 'A,2026-01-10,foot_length,right,176,mm');
    const [a, b] = await Promise.all(
      [1, 2].map(() => parse({ 'children.csv': children, 'measurements.csv': rows })),
    );
    expect(a.caseload.measurements.map((m) => m.id)).toEqual(b.caseload.measurements.map((m) => m.id));
    expect(new Set(a.caseload.measurements.map((m) => m.id)).size).toBe(2);
  });

  it('takes a row a visit beside a table of children with every column', async () => {
    const all = `${tableColumns.children.map(({ name }) => name).join(',')}\nA,,2018-03-14,f\n`;
    const { caseload, refused } = await parse({
      'children.csv': all,
      'measurements.csv': 'child_id,date,observer,foot_length_left_mm\nA,2026-01-10,clinic,178\n',
    });
    expect(refused).toEqual([]);
    expect(caseload.measurements).toMatchObject([{ value: 178, observer: 'clinic' }]);
  });

  it('takes a table of devices from before the hip angles beside a table of children with every column', async () => {
    const all = `${tableColumns.children.map(({ name }) => name).join(',')}\nA,,2018-03-14,f\n`;
    const before = tableColumns.devices.map(({ name }) => name).filter((name) => !name.startsWith('hip_'));
    const row = before.map(
      (name) =>
        ({ id: 'd', child_id: 'A', family: 'solid-afo', side: 'left', cast_date: '2026-01-10' })[name] ?? '',
    );
    const { caseload, refused } = await parse({
      'children.csv': all,
      'devices.csv': `${before.join(',')}\n${row.join(',')}\n`,
    });
    expect(refused).toEqual([]);
    expect(caseload.devices).toMatchObject([{ id: 'd', family: 'solid-afo' }]);
  });

  it('a refused cell of a wide row leaves its neighbours', async () => {
    const { caseload, refused } = await parse({
      'children.csv': children,
      'measurements.csv':
        'child_id,date,foot_length_left_cm,foot_length_right_cm,stature_cm\nA,2026-01-10,17.8,71.9,121\n',
    });
    expect(refused).toMatchObject([{ row: 2, column: 'foot_length_right_cm', given: '71.9' }]);
    expect(caseload.measurements.map((m) => m.value)).toEqual([178, 1210]);
  });

  it.each(['Unterschenkellänge li', 'Jambe G', 'Onderbeenlengte links'])(
    'of a %s the heights of the knee are offered before other sizes',
    async (heading) => {
      const { questions } = await parse({
        'list.csv': `Name;DOB;Date;${heading}\nAda Moss;11.01.2018;17.03.2025;288\nBen Lake;12.01.2017;18.03.2025;301\n`,
      });
      const answers = questions.flatMap(({ choices }) => choices.map(({ answer }) => answer));
      const sizes = answers.filter((answer) => answer.includes('_'));
      expect(sizes.slice(0, 2)).toEqual(['knee_height left', 'fibular_head_height left']);
      // Of the side the heading says, and as few as somebody reads.
      expect(sizes.filter((answer) => answer.endsWith(' right'))).toEqual([]);
      expect(sizes.length).toBeLessThanOrEqual(6);
    },
  );

  it('a mistyped heading is asked, with what it likely means', async () => {
    const files = {
      'children.csv': children,
      'measurements.csv': 'child_id,date,foot_lenght_left_cm,stature_cm\nA,2026-01-10,17.8,121\n',
    };
    const asked = await parse(files);
    expect(asked.questions).toMatchObject([{ suggested: 'foot_length left cm', cells: 1 }]);
    expect(asked.caseload.measurements.map((m) => m.value)).toEqual([1210]);
    const told = await parse(files, { answers: { [asked.questions[0].id]: 'foot_length left cm' } });
    expect(told.caseload.measurements.map((m) => m.value)).toEqual([178, 1210]);
    expect(told.questions).toEqual([]);
  });
});

describe('files', () => {
  const semicolons = '\ufeffID;Geburt;Date of birth;Sex\r\nA;x;14.03.2018;f\r\n';
  it.each([
    ['byte order mark, semicolons, CRLF', bytes(semicolons)],
    ['UTF-16', new Uint8Array([0xff, 0xfe, ...new Uint8Array(Buffer.from(semicolons.slice(1), 'utf16le'))])],
    ['tabs and bare CR', bytes(semicolons.slice(1).replaceAll(';', '\t').replaceAll('\r\n', '\r'))],
    ['a declared separator', bytes(`sep=;\r\n${semicolons.slice(1)}`)],
    ['blank lines before the heading', bytes(`\r\n\r\n${semicolons.slice(1)}`)],
  ])('reads %s', async (_, content) => {
    const { caseload, refused } = await parseCaseload([{ name: 'children.csv', bytes: content }], {
      today: TODAY,
    });
    expect(refused).toEqual([]);
    expect(caseload.children).toMatchObject([
      { id: 'A', birthDate: '2018-03-14', sex: 'female', extra: { Geburt: 'x' } },
    ]);
  });

  it('reads Windows text that is not UTF-8', async () => {
    const content = new Uint8Array([
      ...bytes('id,name,birth_date,sex\nA,Zo'),
      0xeb,
      ...bytes(',2018-03-14,f\n'),
    ]);
    const { caseload } = await parseCaseload([{ name: 'children.csv', bytes: content }], { today: TODAY });
    expect(caseload.children[0].name).toBe('Zoë');
  });

  it('reads the quotes and dashes of Windows text as they are printed', async () => {
    // 0x92 is U+2019, 0x96 U+2013, 0x85 U+2026 in windows-1252 (WHATWG Encoding, index windows-1252).
    const text = Buffer.from(
      'id,name,birth_date,sex\nA,C\xf4me d\x92Aubr\xe9 \x96 Zo\xe9\x85,2018-03-14,f\n',
      'latin1',
    );
    const parsed = await parseCaseload([{ name: 'children.csv', bytes: text }], { today: TODAY });
    expect(parsed.caseload.children[0].name).toBe('Côme d\u2019Aubré \u2013 Zoé\u2026');
  });

  it('a refused child takes its rows along, each told', async () => {
    const { caseload, refused } = await parse({
      'children.csv': 'id,birth_date,sex\nA,2018-02-30,f\nB,2016-07-02,m\n',
      'measurements.csv': long(
        'A,2026-01-10,foot_length,left,175,mm',
        'B,2026-01-10,foot_length,left,205,mm',
      ),
    });
    expect(caseload.children.map((c) => c.id)).toEqual(['B']);
    expect(refused.map((r) => r.file)).toEqual(['children.csv', 'measurements.csv']);
  });

  it('a condition it does not know is kept as written and told', async () => {
    const { caseload, notices, refused } = await parse({
      'children.csv': 'id,birth_date,sex,condition\nA,2018-03-14,f,hemiplegia | Moon foot\n',
    });
    expect(refused).toEqual([]);
    expect(caseload.children[0].conditions).toEqual(['hemiplegia', 'other']);
    expect(Object.values(caseload.children[0].extra)).toEqual(['Moon foot']);
    expect(notices).toHaveLength(1);
  });

  it('says what is accepted when a file is no table it knows', async () => {
    await expect(parse({ 'menu.csv': 'soup,bread\n1,2\n' })).rejects.toMatchObject({
      code: 'invalid-file',
      place: { file: 'menu.csv' },
    });
  });

  it('takes a clinic’s own family by its id or name before a word that another family lists', async () => {
    const names = { en: { clinical: 'Resting AFO', plain: 'night brace' } };
    const rules = loadRules([{ id: 'night-afo', basedOn: 'solid-afo', names }]);
    const rows = ['night-afo', 'Resting AFO', 'SAFO'].map((f, i) => `d${i},A,${f},left,2026-01-10`);
    const { caseload } = await parse(
      { 'children.csv': children, 'devices.csv': `id,child_id,family,side,cast_date\n${rows.join('\n')}\n` },
      { rules },
    );
    expect(caseload.devices.map((d) => d.family)).toEqual(['night-afo', 'night-afo', 'solid-afo']);
  });

  it('devices: an unknown name is asked, a pair is two devices, a fitting before the cast is refused', async () => {
    const { caseload, refused, questions } = await parse({
      'children.csv': children,
      'devices.csv':
        'child_id,family,side,cast_date,fitted_date,allowance_foot_length_cm\n' +
        'A,moon boot,left,2026-01-10,,\nB,solid-afo,both,2026-01-10,,\nA,KAFO,l,2026-01-10,2026-01-01,\nA,Solid AFO,left,2026-01-10,2026-02-01,0.9\n',
    });
    expect(questions.map((q) => q.id)).toEqual(['device:moon boot']);
    expect(refused.map((r) => [r.row, r.column])).toEqual([[4, 'fitted_date']]);
    expect(caseload.devices.map((d) => [d.childId, d.family, d.side])).toEqual([
      ['B', 'solid-afo', 'left'],
      ['B', 'solid-afo', 'right'],
      ['A', 'solid-afo', 'left'],
    ]);
    expect(caseload.devices[2].allowancesMm).toEqual({ foot_length: 9 });
  });

  it('a quoted comma alone in a cell is a comma, not two ditto marks', async () => {
    const { caseload } = await parse({
      'children.csv': children,
      'measurements.csv':
        'child_id,date,measure,side,value,unit,extra:Remarks\nA,2026-01-10,foot_length,left,175,mm,","\n',
    });
    expect(JSON.stringify(caseload)).toContain('"Remarks":","');
  });

  it.each(['allowance_foot_length_cm', 'foot_length_allowance_cm', 'Foot length allowance (cm)'])(
    'devices: %s is what the device takes',
    async (heading) => {
      const { caseload } = await parse({
        'children.csv': children,
        'devices.csv': `child_id,family,side,cast_date,${heading}\nA,solid-afo,left,2026-01-10,0.9\n`,
      });
      expect(caseload.devices[0].allowancesMm).toEqual({ foot_length: 9 });
    },
  );

  it('a table under its own names keeps its devices, whichever optional columns it lacks', async () => {
    const { caseload, refused, questions } = await parse({
      'children.csv': children,
      'devices.csv':
        'id,child_id,family,side,cast_date,replaces\nd1,A,solid-afo,left,2026-01-10,d2\nd2,A,solid-afo,left,2025-01-10,\n',
      'devices-2.csv': 'child_id,family,cast_date\nB,spinal-orthosis,2026-01-10\n',
      'readings.csv':
        'id,child_id,date,measure,side,value,unit,entered\nm1,A,2026-01-10,foot_length,left,175.26,mm,6.9 inch\n',
    });
    expect({ refused, questions }).toEqual({ refused: [], questions: [] });
    expect(caseload.devices.map((d) => [d.id, d.childId, d.family, d.side])).toEqual([
      ['d1', 'A', 'solid-afo', 'left'],
      ['d2', 'A', 'solid-afo', 'left'],
      [expect.any(String), 'B', 'spinal-orthosis', 'none'],
    ]);
    expect(caseload.devices.map((d) => d.replaces)).toEqual(['d2', null, null]);
    expect(caseload.measurements).toMatchObject([{ id: 'm1', value: 175.26, entered: '6.9 inch' }]);
  });
});
