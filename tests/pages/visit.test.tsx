/** A typed visit: what is asked, what is kept as typed, and what is asked about or refused. Angles in degrees from the midline: common practice, no source. */
import { expect, it } from 'vitest';
import { readVisit } from '../../src/pages/child/read-visit.js';
import { VisitDevices } from '../../src/pages/child/visit-devices.js';
import { formatFor } from '../../src/pages/parts/format.js';
import { renderPage } from '../../src/pages/parts/page-context.js';
import { deviceRecord } from '../../src/records/device.js';
import { childRecord } from '../../src/records/records.js';
import { loadRules } from '../../src/rules/load-rules.js';

const format = formatFor('en-GB');
const child = childRecord.parse({ id: 'c', birthDate: '2025-06-01', sex: 'female' });
const device = (id: string, family: string, side: string) =>
  deviceRecord.parse({ id, childId: 'c', family, side, castDate: '2026-09-01' });
const hip = device('hip', 'hip-abduction-orthosis', 'both');
const ankle = device('ankle', 'solid-afo', 'left');
const read = (body: Record<string, string>) =>
  readVisit({ date: '2026-11-20', ...body }, [], [hip, ankle], child.birthDate, '2026-11-28', format);

it('is asked of the device that holds the hips and of no other', () => {
  const form = renderPage(
    <VisitDevices
      devices={[ankle, hip]}
      rules={loadRules()}
      child={child}
      typed={{ 'hipAngleLeft/hip': '40' }}
      errors={{}}
    />,
    { today: '2026-11-28', format, user: null, unsigned: [], path: '/', csrf: '' } as never,
  );
  expect([...form.matchAll(/name="(hipAngle\w+\/\w+)"/g)].map(([, name]) => name)).toEqual([
    'hipAngleLeft/hip',
    'hipAngleRight/hip',
  ]);
  expect(form).toMatch(/name="hipAngleLeft\/hip"[^>]*value="40"|value="40"[^>]*name="hipAngleLeft\/hip"/);
});

it('is kept alone or beside a judgement, left and right apart', () => {
  const { errors, judged } = read({ 'hipAngleLeft/hip': '40°', 'hipAngleRight/hip': '42,5' });
  expect(errors).toEqual({});
  expect(judged).toMatchObject([{ device: { id: 'hip' }, hipAngleLeft: 40, hipAngleRight: 42.5 }]);
  expect(read({ 'verdict/hip': 'good', 'hipAngleRight/hip': '0' }).judged).toMatchObject([
    { verdict: 'good', hipAngleLeft: null, hipAngleRight: 0 },
  ]);
});

it.each(['91', '-1', 'wide'])('%s is no angle: the field is named and nothing else is lost', (angle) => {
  const { errors, typed } = read({ 'hipAngleLeft/hip': angle, 'note/hip': 'sits well' });
  expect(Object.keys(errors)).toEqual(['hipAngleLeft/hip']);
  expect(typed).toMatchObject({ 'hipAngleLeft/hip': angle, 'note/hip': 'sits well' });
});

// A reading far from what the record leads one to expect is asked about before it is kept: common practice, no source.
it('a slip of the pen is asked about, an impossible size and a day to come are refused', () => {
  const size = (side: 'left' | 'right', expected: number) =>
    ({ measure: 'foot_length', side, expected, sd: 3, last: null }) as const;
  const typed = (body: Record<string, string>) =>
    readVisit(
      { date: '2026-11-20', ...body },
      [size('left', 150), size('right', 162)],
      [],
      child.birthDate,
      '2026-11-28',
      format,
    );
  expect(typed({ 'foot_length.left': '155' })).toMatchObject({ errors: {}, doubts: {} });
  expect(typed({ 'foot_length.left': '160' }).doubts['foot_length.left']).toMatch(/larger than expected/);
  // The usual 12 mm between the sides, the other way round.
  expect(typed({ 'foot_length.left': '158', 'foot_length.right': '154' }).doubts).toEqual({
    'foot_length.left': expect.stringContaining('exchanged'),
    'foot_length.right': expect.stringContaining('exchanged'),
  });
  expect(typed({ 'foot_length.left': '1500' }).errors['foot_length.left']).toMatch(/Did you mean 150 mm/);
  expect(typed({ 'foot_length.left': '3000' }).readings).toEqual([]);
  expect(Object.keys(typed({ 'foot_length.left': '150', date: '2026-11-29' }).errors)).toEqual(['date']);
  expect(Object.keys(typed({ 'foot_length.left': '150', date: '2025-05-31' }).errors)).toEqual(['date']);
});
