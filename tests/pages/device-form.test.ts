import { describe, expect, it } from 'vitest';
import { readDevice, typedDevice } from '../../src/pages/child/device-form.js';
import { deviceRecord } from '../../src/records/device.js';
import { loadRules } from '../../src/rules/load-rules.js';

const rules = loadRules();
const question = (family: string) => ({
  rule: rules.get(family)!,
  birthDate: '2018-03-01',
  others: [],
  today: '2026-06-15',
  pairs: true,
  extra: { room: 'blue' },
});
const kafo = { side: 'left', footplate: 'full', castDate: '2026-06-01', fittedDate: '' };
const bars = { 'extensionRangeMm.knee_height': '36', 'extensionRangeMm.hip_height': '0' };

describe('a typed device', () => {
  it('is not taken without saying how far its side bars can be moved: no travel would count, and a KAFO read outgrown at 11 mm', () => {
    const { errors } = readDevice(kafo, question('kafo'));
    expect(Object.keys(errors).toSorted()).toEqual([
      'extensionRangeMm.hip_height',
      'extensionRangeMm.knee_height',
    ]);
    const { choice, errors: none } = readDevice({ ...kafo, ...bars }, question('kafo'));
    expect(none).toEqual({});
    expect(choice.extensionRangeMm).toEqual({ knee_height: 36, hip_height: 0 });
  });

  it('names every field that cannot be, with what would be accepted, all at once', () => {
    const typed = {
      ...kafo,
      ...bars,
      side: '',
      castDate: '2017-01-01',
      fittedDate: '2030-01-01',
      replaces: 'another child’s',
      'allowancesMm.foot_length': 'lots',
      'limitsMm.foot_length': '5',
    };
    const { errors } = readDevice(typed, question('kafo'));
    expect(Object.keys(errors).toSorted()).toEqual([
      'allowancesMm.foot_length',
      'castDate',
      'fittedDate',
      'limitsMm.foot_length',
      'replaces',
      'side',
    ]);
    expect(errors['allowancesMm.foot_length']).toBe('0 to 200 mm');
  });

  it('reads between which angles a hip orthosis was set, and shows them again', () => {
    const typed = {
      side: 'both',
      castDate: '2026-06-01',
      fittedDate: '',
      'extensionRangeMm.hip_height': '0',
    };
    const asked = question('hip-abduction-orthosis');
    const { choice, errors } = readDevice({ ...typed, hipAngleFrom: '40°', hipAngleTo: '60' }, asked);
    expect(errors).toEqual({});
    expect(choice).toMatchObject({ hipAngleFrom: 40, hipAngleTo: 60 });
    const shown = typedDevice(deviceRecord.parse({ ...choice, id: 'd', childId: 'c' }));
    expect(shown).toMatchObject({ hipAngleFrom: '40', hipAngleTo: '60' });
    expect(readDevice({ ...typed, hipAngleFrom: '60', hipAngleTo: '40' }, asked).errors).toHaveProperty(
      'hipAngleTo',
    );
    expect(readDevice({ ...typed, hipAngleFrom: '120' }, asked).errors.hipAngleFrom).toBe('0 to 90 degrees');
  });

  it('reads units, keeps what an older record carries, and can be one of each side', () => {
    const typed = { ...kafo, ...bars, side: 'pair', funder: 'the county', 'limitsMm.foot_length': '21,5 cm' };
    const { choice, errors } = readDevice(
      { ...typed, 'allowancesMm.foot_length': '9,5 mm' },
      question('kafo'),
    );
    expect(errors).toEqual({});
    expect(choice).toMatchObject({
      side: 'pair',
      limitsMm: { foot_length: 215 },
      allowancesMm: { foot_length: 9.5 },
      extra: { room: 'blue', funder: 'the county' },
    });
    expect(
      readDevice({ ...kafo, side: 'pair' }, { ...question('solid-afo'), pairs: false }).errors.side,
    ).toBeDefined();
  });

  it('is shown in its form as it is stored', () => {
    const device = deviceRecord.parse({
      id: 'd',
      childId: 'c',
      family: 'kafo',
      side: 'right',
      castDate: '2026-01-02',
      fittedDate: '2026-02-03',
      footplate: 'behind-toes',
      allowancesMm: { foot_length: 9 },
      limitsMm: { thigh_girth: 400 },
      extensionRangeMm: { knee_height: 30, hip_height: 12 },
      ...{ hipAngleFrom: null, hipAngleTo: null },
      extra: { funder: 'the county', room: 'blue' },
    });
    const { choice, errors } = readDevice(typedDevice(device), { ...question('kafo'), extra: device.extra });
    expect(errors).toEqual({});
    expect({ ...device, ...choice }).toEqual(device);
  });
});
