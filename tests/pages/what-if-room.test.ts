import { expect, it } from 'vitest';
import { dimensionsOf } from '../../src/pages/child/what-if-several.js';
import { deviceRecord } from '../../src/records/device.js';
import { loadRules } from '../../src/rules/load-rules.js';

it('offers the usual room of the age at the cast, as the forecast counts it, of every dimension', () => {
  const rule = loadRules().get('spinal-orthosis')!;
  const stature = rule.dimensions.find((d) => d.measure === 'stature')!;
  const about = { id: 'd', childId: 'c', family: 'spinal-orthosis', side: 'none', castDate: '2026-01-10' };
  const offered = (birthDate: string) => dimensionsOf(rule, deviceRecord.parse(about), birthDate);
  const usual = (birthDate: string) => offered(birthDate).find((d) => d.measure === 'stature')?.usualMm;
  expect(stature.allowanceByAge).toMatchObject([{ fromYears: 0, toYears: 10 }]);
  expect(usual('2018-01-10')).toBe(stature.allowanceByAge[0].value);
  expect(usual('2013-01-10')).toBe(stature.allowanceMm.value);
  expect(offered('2018-01-10').map((d) => d.measure)).toEqual(rule.dimensions.map((d) => d.measure));
});
