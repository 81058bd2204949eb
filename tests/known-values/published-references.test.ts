import { expect, test } from 'vitest';
import { lmsAt, loadReferenceSource, sizeAtZ, zScore } from '../../src/reference/reference.js';
import { normalQuantile } from '../../src/statistics/normal-quantile.js';

const cdc = loadReferenceSource('cdc-2000');
const who = loadReferenceSource('who-2006');

test('CDC 2000: centiles of stature of boys at 24 months, printed, and back', () => {
  // Source: CDC statage.csv, Sex 1 Agemos 24, columns P3..P97 (cm); read as quoted in public repositories 2026-11-25.
  const printed: [number, number][] = [
    [3, 79.91084447],
    [5, 80.72977321],
    [10, 81.99171445],
    [25, 84.10289217],
    [50, 86.45220101],
    [75, 88.80524943],
    [90, 90.92619137],
    [95, 92.19687928],
    [97, 93.02265441],
  ];
  const lms = lmsAt(cdc, 'stature', 'male', 2)!;
  for (const [p, cm] of printed) {
    expect(sizeAtZ(lms, normalQuantile(p / 100))).toBeCloseTo(cm * 10, 2);
    expect(zScore(lms, cm * 10)).toBeCloseTo(normalQuantile(p / 100), 4);
  }
});

test('CDC 2000: weight of boys at 24 months is 12.67076 kg with L -0.20615, S 0.108126', () => {
  // Source: CDC wtage.csv, Sex 1 Agemos 24; read as quoted in public repositories 2026-11-25.
  const lms = lmsAt(cdc, 'weight', 'male', 2)!;
  expect(lms.m).toBeCloseTo(12.67076, 4);
  expect(lms.l).toBeCloseTo(-0.20615, 4);
  expect(lms.s).toBeCloseTo(0.108126, 5);
});

test('CDC 2000: between the transcribed ages interpolation gives the published months to 0.2 mm', () => {
  // Source: CDC statage.csv, Sex 1, Agemos 25.5: L 0.837251351 M 87.65247282 S 0.040577525 (cm); quoted as above.
  const lms = lmsAt(cdc, 'stature', 'male', 25.5 / 12)!;
  expect(Math.abs(lms.m - 876.5247)).toBeLessThan(0.2);
  expect(lms.s).toBeCloseTo(0.040577525, 4);
});

/** Half the last printed digit, and what half a day's growth adds: a printed month is a whole day. */
const ROUNDING = 0.08;
test.each([
  // Source: WHO Child Growth Standards, printed z-score tables -3..+3 SD (lengths cm, weights kg), boys; read as
  // quoted in public repositories 2026-11-25.
  ['stature', 0, [44.2, 46.1, 48.0, 49.9, 51.8, 53.7, 55.6], 10],
  ['stature', 1, [48.9, 50.8, 52.8, 54.7, 56.7, 58.6, 60.6], 10],
  ['weight', 0, [2.1, 2.5, 2.9, 3.3, 3.9, 4.4, 5.0], 1],
  ['weight', 1, [2.9, 3.4, 3.9, 4.5, 5.1, 5.8, 6.6], 1],
  ['weight', 2, [3.8, 4.3, 4.9, 5.6, 6.3, 7.1, 8.0], 1],
] as const)('WHO 2006: boys, %s at %s months', (measure, months, printed, inBase) => {
  const lms = lmsAt(who, measure, 'male', (months * 30.4375) / 365.25)!;
  printed.forEach((value, i) => {
    expect(Math.abs(sizeAtZ(lms, i - 3) / inBase - value)).toBeLessThan(ROUNDING);
  });
});

test('WHO 2007: height at 61 months, boys 110.2647 cm S 0.04164, girls 109.6016 cm S 0.04355', () => {
  // Source: WHO Reference 2007, height-for-age tables; read as quoted in public repositories 2026-11-25.
  for (const [sex, cm, s] of [
    ['male', 110.2647, 0.04164],
    ['female', 109.6016, 0.04355],
  ] as const) {
    const lms = lmsAt(who, 'stature', sex, 61 / 12)!;
    expect(lms.m / 10).toBeCloseTo(cm, 4);
    expect(lms.s).toBeCloseTo(s, 5);
  }
});

test('WHO 2006: median head circumference at 0, 3, 6 and 12 months, mm', () => {
  // From memory, not read in a source.
  const remembered = { male: [345, 405, 433, 461], female: [339, 395, 422, 449] } as const;
  for (const sex of ['male', 'female'] as const)
    [0, 3, 6, 12].forEach((months, i) => {
      const { m } = lmsAt(who, 'head_circumference', sex, months / 12)!;
      expect(Math.abs(m - remembered[sex][i])).toBeLessThan(1);
    });
});
