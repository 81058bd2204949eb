import { describe, expect, it } from 'vitest';
import * as children from '../../src/exchange/csv/read-children.js';
import * as devices from '../../src/exchange/csv/read-devices.js';
import * as measurements from '../../src/exchange/csv/read-measurements.js';
import * as records from '../../src/exchange/csv/read-records.js';
import type { TableResult } from '../../src/exchange/csv/read-rows.js';
import type { TextTable } from '../../src/exchange/csv/read-table.js';
import { type ReadSettings, RowReader, tableLayout } from '../../src/exchange/csv/row-reader.js';
import { IN_FUTURE } from '../../src/records/check/refuse.js';
import type { Device } from '../../src/records/device.js';
import { familyFacts } from '../../src/rules/family-facts.js';
import { loadRules } from '../../src/rules/load-rules.js';

const rules = loadRules();
const worn = {
  id: 'D',
  childId: 'A',
  family: 'kafo',
  side: 'left' as const,
  castDate: '2026-05-01',
  fittedDate: null,
  status: 'ordered' as const,
  allowancesMm: {},
  limitsMm: {},
  extensionsLeftMm: {},
  replaces: null,
  footplate: 'full' as const,
  extra: {},
} as unknown as Device;
/** A reader whose rows have all been asked for. */
const whole =
  <T>(read: (text: TextTable, settings: ReadSettings) => TableResult<T>) =>
  (text: TextTable, given: ReadSettings) => {
    const result = read(text, given);
    return { ...result, records: [...result.records] };
  };
const readChildren = whole(children.readChildren);
const readDevices = whole(devices.readDevices);
const readMeasurements = whole(measurements.readMeasurements);
const readEvents = whole(records.readEvents);
const readJobs = whole(records.readJobs);
const readSkinChecks = whole(records.readSkinChecks);
/** One child, A, and one device, D. */
const settings = {
  today: '2026-11-25',
  dateOrder: 'refuse' as const,
  lengthUnit: 'mm',
  rules,
  families: familyFacts(rules),
  birthDateOf: (id: string) => (id === 'A' ? '2018-03-14' : undefined),
  deviceOf: (id: string) => (id === 'D' ? worn : undefined),
};
const table = (...lines: string[]) => {
  const [headings, ...rows] = lines.map((line) => line.split(','));
  return { file: 'list', headings, rows: rows.map((cells, n) => ({ row: n + 2, cells })) };
};
/** One child's row of one cell besides what each needs. */
const child = (heading: string, cell: string) =>
  readChildren(table(`id,birth_date,${heading}`, `A,2018-03-14,${cell}`), settings);
const reader = (headings: string, row: string) => {
  const text = table(headings);
  return new RowReader(tableLayout('children', text), 2, row.split(','), settings);
};

describe('a row of a table', () => {
  it('a heading of ours is that column, wherever another that may mean it stands', () => {
    const { at, others } = tableLayout('children', table('child,id,dob,birth_date'));
    expect([at.get('id')?.index, at.get('birth_date')?.index]).toEqual([1, 3]);
    expect(others).toEqual([
      { index: 0, heading: 'child' },
      { index: 2, heading: 'dob' },
    ]);
  });

  it('without the column that each must have is refused row by row', () => {
    const { records, refused } = readChildren(table('id,sex', 'A,f', 'B,m'), settings);
    expect(records).toEqual([]);
    expect(refused).toMatchObject([
      { row: 2, column: 'birth_date', why: 'is missing' },
      { row: 3, column: 'birth_date', why: 'is missing' },
    ]);
  });

  it.each([
    ['gestation_weeks', '22', { gestationWeeks: 22 }],
    ['gestation_weeks', '44', { gestationWeeks: 44 }],
    ['gestation_weeks', '', { gestationWeeks: null }],
    ['latex', 'x', { latexAlert: true }],
    ['insensate', 'Oui', { insensateSkin: true }],
    ['insensate', '0', { insensateSkin: false }],
    ['walks', '', { walks: true }],
    ['walks', 'no', { walks: false }],
    ['palliative', 'yes', { palliative: true }],
    ['affected_side', 'R', { affectedSide: 'right' }],
    ['affected_side', 'l', { affectedSide: 'left' }],
    ['affected_side', 'n/a', { affectedSide: 'none' }],
    ['sex', 'Girl', { sex: 'female' }],
    ['status', 'Moved away', { status: 'moved-away' }],
    ['status', '', { status: 'active' }],
    ['transport_days', 'Mon|7', { transportDays: [1, 7] }],
    ['conditions', 'Down Syndrome|gout', { conditions: ['down-syndrome', 'other'] }],
  ] as const)('%s %s is read', (heading, cell, expected) => {
    const { records, refused } = child(heading, cell);
    expect(refused).toEqual([]);
    expect(records).toMatchObject([expected]);
  });

  it.each([
    ['gestation_weeks', '21', 'is out of range'],
    ['gestation_weeks', '45', 'is out of range'],
    ['gestation_weeks', 'term', 'is not a number'],
    ['latex', 'perhaps', 'is neither yes nor no'],
    ['affected_side', 'front', 'is not one of the words doorpost knows'],
    ['transport_days', 'Mon|8', 'is not a list of weekdays'],
    ['clinician', 'x'.repeat(81), 'is too long'],
  ])('%s %s is refused, with what would be taken', (heading, cell, why) => {
    const { records, refused } = child(heading, cell);
    expect(records).toEqual([]);
    expect(refused).toMatchObject([{ file: 'list', row: 2, column: heading, given: cell, why }]);
    expect(refused[0]?.accepted).not.toBe('');
  });

  it('of a child born after today is refused', () =>
    expect(readChildren(table('id,birth_date', 'A,2026-11-26'), settings).refused).toMatchObject([
      { row: 2, column: 'birth_date', given: '2026-11-26', why: IN_FUTURE },
    ]));

  it('of a job is of a device that was taken, and fitted once its fit has a day', () => {
    const jobs = (...rows: string[]) => readJobs(table('device_id,cast,fit,status', ...rows), settings);
    expect(jobs('D,2026-05-01,,', 'D,2026-05-02,2026-06-01,').records).toMatchObject([
      { deviceId: 'D', family: 'kafo', stages: { cast: '2026-05-01' }, status: 'in-progress' },
      { status: 'fitted', stages: { fit: '2026-06-01' } },
    ]);
    expect(jobs('E,2026-05-01,,', 'D,2026-05-01,2026-04-01,').refused).toMatchObject([
      { row: 2, column: 'device_id', given: 'E' },
      { row: 3, column: 'fit', given: '2026-04-01' },
    ]);
  });

  it('of a skin check is of a day that was, and says what was seen', () => {
    const checks = (...rows: string[]) => readSkinChecks(table('child_id,date,state', ...rows), settings);
    const { records, refused } = checks('A,2026-11-20,lasts', 'A,2026-11-26,open', 'A,2026-11-20,-');
    expect(records).toMatchObject([{ date: '2026-11-20', state: 'lasts' }]);
    expect(refused).toMatchObject([
      { row: 3, column: 'date', why: IN_FUTURE },
      { row: 4, column: 'state', why: 'is missing' },
    ]);
  });

  it('of a skin check has minutes that go with what was seen', () => {
    const { records, refused } = readSkinChecks(
      table('child_id,date,state,minutes', 'A,2026-11-20,fades,45', 'A,2026-11-21,fades,10'),
      settings,
    );
    expect(records).toMatchObject([{ state: 'fades', minutes: 10 }]);
    expect(refused).toMatchObject([{ row: 2, column: 'minutes', given: '45', why: 'does not fit' }]);
  });

  it('of a frame over both legs need not say the side', () =>
    expect(
      readDevices(table('child_id,family,cast_date', 'A,boots-and-bar,2026-05-01'), settings).records,
    ).toMatchObject([{ side: 'both' }]));

  it('keeps what it does not read, without the quote that keeps it from being run', () => {
    expect(reader('id,Shoe,extra:born at', "A,'=1+1,7").extra()).toEqual({ Shoe: '=1+1', 'born at': '7' });
    expect(reader('id,Shoe', 'A,').extra()).toEqual({});
  });
});

describe('a reading', () => {
  const read = (...lines: string[]) => readMeasurements(table(...lines), settings);
  it('has the side written, one letter or whole; a measure of the body has none', () => {
    const { records, refused } = read(
      'child_id,date,measure,side,value',
      'A,2026-01-05,foot_length,l,170',
      'A,2026-01-05,foot_length,Right,171',
      'A,2026-01-05,stature,,1190',
    );
    expect(refused).toEqual([]);
    expect(records.map((m) => [m.side, m.value])).toEqual([
      ['left', 170],
      ['right', 171],
      ['none', 1190],
    ]);
  });

  it.each([
    ['A,2026-01-05,foot_length,,170', 'side', 'does not say which side the foot length is of'],
    ['A,2026-01-05,stature,left,1190', 'side', 'stature has no side'],
    ['A,2018-03-13,stature,,1190', 'date', /before birth/],
    ['A,2026-11-26,stature,,1190', 'date', /future/],
    ['B,2026-01-05,stature,,1190', 'child_id', 'is not the id of a child that was taken'],
    ['A,2026-01-05,stature,,9000', 'value', /.+/],
  ])('%s is refused', (row, column, why) => {
    const { records, refused } = read('child_id,date,measure,side,value', row);
    expect(records).toEqual([]);
    expect(refused).toMatchObject([{ row: 2, column, why: expect.stringMatching(why) }]);
  });

  it('of a wide row is refused alone; a day that cannot be is refused once for all of them', () => {
    const wide = 'child_id,date,foot_length_left_cm,foot_length_right_cm';
    const one = read(wide, 'A,2026-01-05,17.0,large');
    expect(one.records).toMatchObject([{ side: 'left', value: 170, entered: '17.0 cm' }]);
    expect(one.refused).toMatchObject([{ column: 'foot_length_right_cm', given: 'large' }]);
    expect(read(wide, 'A,2026-11-26,17.0,17.1').refused).toMatchObject([{ column: 'date' }]);
  });
});

describe('a device', () => {
  const read = (row: string) =>
    readDevices(table('child_id,family,side,cast_date,fitted_date,limit_knee_height_cm', row), settings);
  it('is ordered until it is fitted, on the side written, its sizes in mm', () => {
    expect(read('A,kafo,l,2026-05-01,,34').records).toMatchObject([
      { side: 'left', status: 'ordered', fittedDate: null, limitsMm: { knee_height: 340 } },
    ]);
    expect(read('A,kafo,r,2026-05-01,2026-06-01,').records).toMatchObject([
      { side: 'right', status: 'worn' },
    ]);
  });
  it.each([
    ['A,kafo,l,2026-05-01,,0', 'limit_knee_height_cm'],
    ['A,kafo,l,2026-05-01,,-1', 'limit_knee_height_cm'],
    ['A,kafo,l,2026-11-26,,', 'cast_date'],
    ['A,kafo,l,2026-05-01,2026-04-01,', 'fitted_date'],
    ['A,cafo,l,2026-05-01,,', 'family'],
    ['B,kafo,l,2026-05-01,,', 'child_id'],
  ])('%s is refused', (row, column) => {
    const { records, refused } = read(row);
    expect(records).toEqual([]);
    expect(refused).toMatchObject([{ row: 2, column }]);
  });
});

describe('an event', () => {
  const read = (row: string) =>
    readEvents(table('device_id,date,kind,verdict,measure,side,change_mm,note', row), settings);
  it('keeps its side and its figure', () => {
    expect(read('D,2026-07-01,adjusted,,knee_height,l,6,').records).toMatchObject([
      { kind: 'adjusted', side: 'left', changeMm: 6 },
    ]);
    expect(read('D,2026-07-01,verdict,tight,,,,').records).toMatchObject([{ verdict: 'tight', side: null }]);
  });
  it.each([
    ['D,2026-07-01,,tight,,,,', 'kind'],
    ['D,2026-11-26,verdict,tight,,,,', 'date'],
    ['D,2026-07-01,adjusted,,knee_height,l,999,', 'change_mm'],
    ['E,2026-07-01,verdict,tight,,,,', 'device_id'],
  ])('%s is refused', (row, column) => {
    const { records, refused } = read(row);
    expect(records).toEqual([]);
    expect(refused).toMatchObject([{ row: 2, column }]);
  });
});
