import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { BY_PART } from '../../../src/exchange/headings/by-part.js';
import { headingCandidates } from '../../../src/exchange/headings/heading-meaning.js';
import { spokenLists, vocabularies } from '../../../src/exchange/headings/read-words.js';
import { fieldIds } from '../../../src/exchange/headings/vocabulary.js';
import { parseCaseload } from '../../../src/exchange/parse-caseload.js';
import { cellSize } from '../../../src/exchange/sheets/cell-size.js';
import { familyIds } from '../../../src/records/device.js';
import { measureIds } from '../../../src/records/measure.js';
import { conditionIds } from '../../../src/records/records.js';
import { unitNamed } from '../../../src/records/units.js';
import { readList, takenText } from './read-list.js';

const TODAY = '2026-11-25';

const LISTS = fileURLToPath(new URL('./lists/', import.meta.url));
const lists = await Promise.all(
  readdirSync(LISTS)
    .sort()
    .map((name) => readList(LISTS + name)),
);

/** Lists typed as clinics keep them, of invented children; beside each what a person at the desk takes from it (common practice, no source). */
describe('lists as clinics keep them', () => {
  it.each(lists.map((list) => [list.title, list] as const))('%s', async (_, list) => {
    const parsed = await parseCaseload([list.file], {
      today: TODAY,
      takeProbable: !list.taken.includes('asks nothing'),
      answers: list.answers,
    });
    const kept = list.taken.filter((line) => line.startsWith('kept '));
    const told = list.taken.filter((line) => line.startsWith('told '));
    const taken = list.taken.filter((line) => ![...kept, ...told, 'asks nothing'].includes(line));
    // Fittings and states are looked at where a list says them.
    const stated = taken.some((line) => line.startsWith('state '));
    const found = takenText(parsed).filter((line) => stated || !line.startsWith('state '));
    expect(found.sort()).toEqual(taken.sort());
    for (const line of kept) expect(JSON.stringify(parsed.caseload)).toContain(line.slice('kept '.length));
    for (const line of told) expect(parsed.notices.join('\n')).toContain(line.slice('told '.length));
  });
});

// What only the clinic can say is asked, and what it has said is not: common practice, no source.
it.each([
  [
    'a size ten times what its heading says',
    'Foot L (cm)',
    '3 Mar 2026,178',
    ['unit:foot l cm:foot_length'],
    [],
  ],
  ['a weight that can be kilograms or pounds', 'Weight', '3 Mar 2026,35', ['unit:weight:weight'], []],
  ['a day that would lie ahead day first', 'Foot L mm', '05/12/2026,178', [], ['left 178 2026-05-12']],
  ['a day that can be either', 'Foot L mm', '05/10/2026,178', ['dates:seen'], []],
  [
    'one foot beside devices of both sides',
    'Device,Foot length mm',
    '3 Mar 2026,solid AFO R + KAFO L,178',
    ['side-of:foot length mm', 'cast:from-visit'],
    [],
  ],
  [
    'one foot beside a device of one side',
    'Device,Foot length mm',
    '3 Mar 2026,solid AFO R,178',
    ['cast:from-visit'],
    ['right 178 2026-03-03'],
  ],
] as const)('%s', async (_, headings, cells, questions, readings) => {
  const text = `Name,DOB,Sex,Seen,${headings}\nAda Beck,12 Apr 2018,girl,${cells}\n`;
  const file = { name: 'list.csv', bytes: new TextEncoder().encode(text) };
  const parsed = await parseCaseload([file], { today: TODAY });
  expect(parsed.questions.map((q) => q.id)).toEqual(questions);
  const { measurements } = parsed.caseload;
  expect(measurements.map((m) => `${m.side} ${m.value} ${m.date}`)).toEqual(readings);
});

// Stone of 14 pounds, pound of 16 ounces, foot of 12 inches: the imperial system.
it.each([
  ['3 st 8 lb', { value: 50, unit: 'lb', doubt: false }],
  ['49 lb 8 oz', { value: 49.5, unit: 'lb', doubt: false }],
  ['3 ft 11', { value: 47, unit: 'inch', doubt: false }],
  ['168/169', { value: 168.5, unit: null, doubt: true }],
  ['168', { value: 168, unit: null, doubt: false }],
])('a cell of %s', (cell, size) => expect(cellSize(cell)).toEqual(size));

// What is planned is no record: its day must never date a reading or a device.
it.each([
  'Review due',
  'Next review',
  'Next cast',
  'Planned cast date',
  'Cast due',
  'Expected delivery',
  'Replaced by',
  'Next AFO',
  'Nächster Gips',
  'Lieferung geplant',
  'Moulage prévu',
  'Prochaine orthèse',
  'Próxima ortesis',
  'Volgende gips',
  'Prossimo calco',
])('%s is kept and dates nothing', (heading) => {
  const [first, ...more] = headingCandidates(heading);
  expect(first.meaning).toEqual({ kind: 'keep' });
  expect(more).toEqual([]);
});

it('has a meaning for every row of words', () => {
  const known = new Set<string>([
    ...fieldIds.map((id) => `fields ${id}`),
    ...measureIds.map((id) => `measures ${id}`),
  ]);
  for (const { fields, measures, parts } of Object.values(vocabularies)) {
    const written = [
      ...Object.keys(fields).map((id) => `fields ${id}`),
      ...Object.keys(measures).map((id) => `measures ${id}`),
    ];
    expect(written.filter((key) => !known.has(key))).toEqual([]);
    expect(Object.keys(parts).filter((part) => !Object.hasOwn(BY_PART, part))).toEqual([]);
  }
  const named = (kind: string) => spokenLists(kind).flatMap(([id]) => id.split('|'));
  expect([...named('device'), ...named('kind')].filter((id) => !familyIds.some((f) => f === id))).toEqual([]);
  expect(named('condition').filter((id) => !conditionIds.some((c) => c === id))).toEqual([]);
  expect(named('unit').filter((id) => unitNamed(id) !== id)).toEqual([]);
});

describe('what a diagnosis brings with it', () => {
  const child = async (diagnosis: string, more: readonly [heading: string, cell: string][] = []) => {
    const headings = ['ID', 'DOB', 'Sex', 'Diagnosis', ...more.map(([h]) => h), 'Date', 'Foot L (mm)'];
    const cells = ['p1', '2019-03-01', 'f', diagnosis, ...more.map(([, c]) => c), '2026-02-02', '180'];
    const bytes = new TextEncoder().encode(`${headings.join(';')}\n${cells.join(';')}\n`);
    const parsed = await parseCaseload([{ name: 'list.csv', bytes }], { today: TODAY, takeProbable: true });
    return parsed.caseload.children[0];
  };

  // Latex precautions from birth and skin that does not feel in spina bifida: common practice, no source.
  it.each([
    'MMC L3',
    'spina bifida',
    'Myelomeningozele',
    'myelomeningocele',
    'mielomeningocele',
    'myelomenigocele low lumbar',
    'spina biffida S1',
  ])('%s: latex and skin that cannot warn, without a column for either', async (diagnosis) => {
    expect(await child(diagnosis)).toMatchObject({ latexAlert: true, insensateSkin: true });
  });

  it('leaves a column of the sheet the last word on latex', async () => {
    expect(await child('MMC L3', [['Latex', 'no']])).toMatchObject({ latexAlert: false });
  });

  it.each([
    ['CP', 'cerebral-palsy'],
    ['DMD', 'muscular-dystrophy'],
    ['DDH', 'hip-dysplasia'],
    ['AIS', 'idiopathic-scoliosis'],
    ['CTEV', 'clubfoot'],
    ['trisomy 21', 'down-syndrome'],
    ['SMA', 'spinal-muscular-atrophy'],
    ['MMC L3', 'myelomeningocele-high'],
    ['MMC S1', 'myelomeningocele-low'],
  ])('%s is %s and no latex alert beyond spina bifida', async (diagnosis, condition) => {
    const { conditions, latexAlert } = await child(diagnosis);
    expect(conditions).toContain(condition);
    expect(latexAlert).toBe(condition.startsWith('myelomeningocele'));
  });

  // Slips of spelling and words cut short: common practice, no source.
  it.each([
    ['cerebal palsey', 'cerebral-palsy'],
    ['unilat CP (L)', 'hemiplegia'],
    ['Duchene MD', 'muscular-dystrophy'],
    ['spinal musc atrophy type 3', 'spinal-muscular-atrophy'],
    ['adol. idiopathic scoli', 'idiopathic-scoliosis'],
    ['neuromusc scoliosis', 'neuromuscular-scoliosis'],
    ['R clubft, Ponseti', 'clubfoot'],
    ['dev dysplasia hip bilat', 'hip-dysplasia'],
    ['arthrogryphosis', 'arthrogryposis'],
    ['plageocephaly L', 'positional-head-asymmetry'],
  ])('%s is read as %s', async (diagnosis, condition) => {
    expect((await child(diagnosis)).conditions).toEqual([condition]);
  });
  it.each(['hypertonia', 'spinal tumour', 'hip pain', 'cerebral tumour', 'club hand', 'macrocephaly'])(
    '%s is no slip of another diagnosis',
    async (diagnosis) => {
      expect((await child(diagnosis)).conditions).toEqual(['other']);
    },
  );

  it('takes the side of a hemiplegia', async () => {
    expect(await child('L hemi')).toMatchObject({ affectedSide: 'left', conditions: ['hemiplegia'] });
  });
});

describe('what a remark says of the skin', () => {
  const read = async (heading: string, remark: string, device = 'solid AFO both', state = '') => {
    const lines = [
      ['Name', 'DOB', 'Sex', 'Device', 'Device status', 'Cast', 'Seen', 'Foot L (mm)', heading],
      ['Lina Amari', '2019-02-02', 'f', device, state, device ? '2026-06-09' : '', '2026-06-09', '176', ''],
      ['Lina Amari', '2019-02-02', 'f', '', '', '', '2026-11-20', '180', remark],
    ];
    const bytes = new TextEncoder().encode(lines.map((cells) => cells.join(';')).join('\n'));
    const parsed = await parseCaseload([{ name: 'list.csv', bytes }], { today: TODAY, takeProbable: true });
    const { events, devices } = parsed.caseload;
    const told = events.map((e) => [e.date, devices.find((d) => d.id === e.deviceId)?.side, e.note]);
    return { told, notices: parsed.notices.join(' ') };
  };

  // 'Skin' and the like in six languages, and a heading nobody knows over words that tell of a finding.
  it.each([
    'Comments',
    'Bemerkungen',
    'Observaciones',
    'Remarques',
    'Osservazioni',
    'Bijzonderheden',
    'What mum says',
  ])('under %s is a note on the device worn that day, whichever row named it', async (heading) => {
    const { told, notices } = await read(heading, 'red over L navicular 40 min');
    expect(told).toEqual([['2026-11-20', 'left', 'red over L navicular 40 min']]);
    expect(notices).not.toMatch(/no device worn/);
  });

  it.each(['Skin', 'Haut', 'Piel', 'Peau', 'Cute', 'Huid', 'Red marks'])(
    'under %s is read with its heading, and goes to both sides where it names none',
    async (heading) => {
      const { told } = await read(heading, 'heel');
      expect(told).toEqual(['left', 'right'].map((side) => ['2026-11-20', side, `${heading}: heel`]));
    },
  );

  it.each([
    ['', ''],
    ['solid AFO both', 'retired'],
  ])('is told where no device was worn that day (%s %s)', async (device, state) => {
    const { told, notices } = await read('Comments', 'blister on the heel', device, state);
    expect(told).toEqual([]);
    expect(notices).toMatch(/one remark on skin or fit goes with no device worn that day/);
  });
});

it('asks whether devices cast long ago are worn where no column says that they were fitted', async () => {
  const bytes = new TextEncoder().encode(
    'Name,DOB,Device,Side,Cast date\nAnn Lee,2018-03-02,AFO hinged,L,2026-05-15\nBob Ray,2019-11-19,AFO hinged,R,2026-11-20\n',
  );
  const read = (answers: Record<string, string>) =>
    parseCaseload([{ name: 'casts.csv', bytes }], { today: TODAY, takeProbable: false, answers });
  const fitted = ({ caseload }: Awaited<ReturnType<typeof read>>) =>
    caseload.devices.map((d) => [d.status, d.fittedDate ?? null]);
  const asked = await read({});
  expect(asked.questions.map(({ id, cells, suggested }) => [id, cells, suggested])).toEqual([
    ['fit:from-cast', 1, 'yes'],
  ]);
  // The usual three weeks of the workshop for an AFO (common practice, no source); one cast last week is being made.
  expect(fitted(await read({ 'fit:from-cast': 'yes' }))).toEqual([
    ['worn', '2026-06-05'],
    ['ordered', null],
  ]);
  expect(fitted(await read({ 'fit:from-cast': 'ordered' }))).toEqual([
    ['ordered', null],
    ['ordered', null],
  ]);
});

// Latex and skin that cannot warn hang on the diagnosis, which such a list says once, above its table.
it('asks whether a list called after spina bifida is of children with it', async () => {
  const bytes = new TextEncoder().encode(
    'Spina bifida clinic,,\n,,\nName,DOB,Date,Foot L mm\nAnn Lee,2018-03-02,2026-05-15,170\nBob Ray,2019-11-19,2026-05-15,151\n',
  );
  const read = (answers: Record<string, string>) =>
    parseCaseload([{ name: 'tuesday.csv', bytes }], { today: TODAY, takeProbable: false, answers });
  const said = ({ caseload }: Awaited<ReturnType<typeof read>>) =>
    caseload.children.map((c) => [c.conditions, c.latexAlert, c.insensateSkin]);
  const asked = await read({});
  expect(asked.questions.map(({ id, cells, suggested }) => [id, cells, suggested])).toEqual([
    ['condition:from-title', 2, 'yes'],
  ]);
  expect(said(asked)).toEqual([
    [[], false, false],
    [[], false, false],
  ]);
  expect(said(await read({ 'condition:from-title': 'yes' }))).toEqual([
    [['myelomeningocele-low'], true, true],
    [['myelomeningocele-low'], true, true],
  ]);
});

// A frame to stand in is no orthosis, and what is worn in it is none of the pelvis (common practice, no source).
it.each([
  ['standing frame', 'is no orthosis'],
  ['standing frame sandals', 'is no orthosis'],
])('%s is told and not guessed to be any device', async (device, told) => {
  const text = `Name,DOB,Sex,Device,Cast,Foot L mm\nAda Beck,12 Apr 2018,girl,${device},3 Mar 2026,205\n`;
  const file = { name: 'list.csv', bytes: new TextEncoder().encode(text) };
  const parsed = await parseCaseload([file], { today: TODAY, takeProbable: true });
  expect(parsed.caseload.devices).toEqual([]);
  expect(parsed.questions).toEqual([]);
  expect(parsed.notices.join('\n')).toContain(`"${device}" under "Device" ${told}`);
});
