import { describe, expect, test } from 'vitest';
import { readings } from '../../src/growth/child/readings.js';
import { sdToScale } from '../../src/growth/population/growth-scale.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { fitChild } from '../../src/growth/prediction/fit-child.js';
import { dayNumber, isoDate } from '../../src/records/dates.js';
import { measures, type Series } from '../../src/records/measure.js';
import type { MaturityMarker } from '../../src/records/records.js';
import { child, dayAt, posteriorOf, reading } from './support.js';

const left = { measure: 'foot_length', side: 'left' } as const;
const right = { measure: 'foot_length', side: 'right' } as const;
const feet = (ages: number[], start: number, more = 3) =>
  ages.flatMap((age, i) => [
    reading('foot_length', age, start + 10 * i, { side: 'left' }),
    reading('foot_length', age, start + 10 * i + more, { side: 'right' }),
  ]);

describe('outcomes without a forecast', () => {
  test('no reading', () => expect(fitChild(child([]), loadGrowthModel()).kind).toBe('too-few-measurements'));
  test('an adult', () =>
    expect(fitChild(child([reading('stature', 30, 1780)]), loadGrowthModel()).kind).toBe(
      'past-reference-age',
    ));
  test('one reading is enough, and says little', () => {
    const one = posteriorOf(child([reading('stature', 9, 1330)]));
    const p = one.predict(left, [dayAt(9)]);
    // Foot length at 9 y: SD about 11 mm of the reference; stature explains about half of its variance.
    expect(p.sd[0]).toBeGreaterThan(5);
    expect(p.sd[0]).toBeLessThan(12);
  });
});

test('an error of a girth is a share of it on the model’s scale, one of a bone its mm', () => {
  expect(sdToScale('calf_girth', 3, 240)).toBeCloseTo(0.0125, 10);
  expect(sdToScale('foot_length', 3, 240)).toBe(3);
});

describe('several readings of a day', () => {
  const model = loadGrowthModel();
  const foot = (mm: number, more = {}) => reading('foot_length', 9, mm, { side: 'left', ...more });
  const ofDay = (...given: ReturnType<typeof foot>[]) => readings(child(given), model);
  test('that agree are one with half the variance', () => {
    const [one] = ofDay(foot(200));
    const both = ofDay(foot(200), foot(200));
    expect(both).toHaveLength(1);
    expect(both[0].value).toBeCloseTo(one.value, 10);
    expect(one.variance / both[0].variance).toBeCloseTo(2, 6);
  });
  test('that contradict each other stay two', () => {
    expect(ofDay(foot(200), foot(226))).toHaveLength(2);
    expect(ofDay(foot(200), foot(203))).toHaveLength(1);
  });
  test('count by their own technical error where it is stated', () => {
    const [usual, twice] = [2, 4].map((technicalError) => ofDay(foot(200, { technicalError }))[0].variance);
    expect(twice / usual).toBeCloseTo(4, 6);
  });
});

test.each([
  ['both feet at every visit', feet([7, 8, 9], 190, 8)],
  ['one foot left out once', [...feet([7, 8, 9], 190), reading('foot_length', 9.5, 214, { side: 'left' })]],
  ['stature alone', [reading('stature', 9, 1330)]],
  ['feet and stature', [...feet([6, 9, 12], 180), reading('stature', 6, 1150), reading('stature', 12, 1500)]],
])('many series of a day are foreseen as each by itself: %s', (_, given) => {
  const posterior = posteriorOf(child(given));
  const series = loadGrowthModel().measures.flatMap((measure): Series[] =>
    measures[measure].sided
      ? [
          { measure, side: 'left' },
          { measure, side: 'right' },
        ]
      : [{ measure, side: 'none' }],
  );
  const together = posterior.predictOn(series, dayAt(12.5));
  expect(together).toHaveLength(series.length);
  series.forEach((s, i) => {
    const { mean, sd } = posterior.predict(s, [dayAt(12.5)]);
    expect(together[i].mean / mean[0]).toBeCloseTo(1, 10);
    expect(together[i].sd / sd[0]).toBeCloseTo(1, 8);
  });
});

describe('left and right', () => {
  const posterior = posteriorOf(child(feet([7, 8, 9], 190, 8)));
  test('keep their own size', () => {
    const days = [dayAt(9)];
    const gap = posterior.predict(right, days).mean[0] - posterior.predict(left, days).mean[0];
    expect(gap).toBeGreaterThan(4);
    expect(gap).toBeLessThan(8.5);
  });
  test('share the child: a side measured once follows the other', () => {
    const p = posteriorOf(child([...feet([7], 190, 0), reading('foot_length', 9, 214, { side: 'left' })]));
    const alone = posteriorOf(child(feet([7], 190, 0)));
    expect(p.predict(right, [dayAt(9)]).mean[0]).toBeGreaterThan(alone.predict(right, [dayAt(9)]).mean[0]);
    expect(p.predict(right, [dayAt(9)]).sd[0]).toBeLessThan(0.7 * alone.predict(right, [dayAt(9)]).sd[0]);
  });
});

describe('joint draws', () => {
  const posterior = posteriorOf(child([...feet([10, 11, 12], 220), reading('stature', 12, 1500)]));
  const days = Array.from({ length: 131 }, (_, i) => dayAt(12) + 7 * i);
  const series = [left, right, { measure: 'knee_height', side: 'left' } as const];
  const draws = posterior.sample(series, days, 1000, 5);
  test('a bone never shrinks along a path', () => {
    for (const path of draws)
      for (let i = 0; i < 1000; i++)
        for (let j = 1; j < days.length; j++)
          if (path[i * days.length + j] < path[i * days.length + j - 1]) expect.fail(`draw ${i}, day ${j}`);
  });
  test('the same seed gives the same draws, another seed others', () => {
    const differs = (seed: number) =>
      posterior.sample(series, days, 1000, seed)[1].some((v, i) => v !== draws[1][i]);
    expect(differs(5)).toBe(false);
    expect(differs(6)).toBe(true);
  });
  test('agree with the predicted quantiles', () => {
    const p = posterior.predict(left, days);
    for (const j of [0, 52, 104])
      for (const q of [0.1, 0.5, 0.9]) {
        const sorted = Float64Array.from({ length: 1000 }, (_, i) => draws[0][i * days.length + j]).sort();
        // Sampling error of a quantile of 1,000 draws is about 0.06 SD; holding paths up adds a little.
        expect(Math.abs(sorted[q * 1000] - p.quantile(q)[j])).toBeLessThan(0.2 * p.sd[j] + 0.3);
      }
  });
  test('the two feet of one draw belong to one child', () => {
    const at = 104;
    const n = 1000;
    const a = Float64Array.from({ length: n }, (_, i) => draws[0][i * days.length + at]);
    const b = Float64Array.from({ length: n }, (_, i) => draws[1][i * days.length + at]);
    const mean = (v: Float64Array) => v.reduce((s, x) => s + x, 0) / n;
    const cov = (v: Float64Array, w: Float64Array) =>
      v.reduce((s, x, i) => s + (x - mean(v)) * (w[i] - mean(w)), 0) / n;
    expect(cov(a, b) / Math.sqrt(cov(a, a) * cov(b, b))).toBeGreaterThan(0.8);
  });
});

/** The size at a z-score, to the millimetre. */
function sizeAt(sex: 'male' | 'female', measure: 'knee_height' | 'stature', age: number, z: number): number {
  const { zScore } = loadGrowthModel();
  let [low, high] = [50, 2200];
  while (high - low > 0.1) {
    const middle = (low + high) / 2;
    if ((zScore(sex, measure, age, middle) ?? 0) < z) low = middle;
    else high = middle;
  }
  return Math.round(low);
}

describe('gross errors', () => {
  test('inches for centimetres are doubted and do not move the forecast', () => {
    const good = feet([7, 8, 9, 10], 185);
    const slip = { ...good[3], value: good[3].value / 2.54 };
    const with_ = posteriorOf(child([...good.slice(0, 3), slip, ...good.slice(4)]));
    const without = posteriorOf(child(good.filter((m) => m !== good[3])));
    expect(with_.suspicions.map((s) => s.measurementId)).toEqual([slip.id]);
    expect(with_.suspicions[0].probability).toBeGreaterThan(0.99);
    expect(Math.abs(with_.suspicions[0].expected - good[3].value)).toBeLessThan(6);
    const days = [dayAt(11)];
    expect(Math.abs(with_.predict(right, days).mean[0] - without.predict(right, days).mean[0])).toBeLessThan(
      0.2,
    );
  });
  test('and makes nothing surer: a size is as unsure as without it', () => {
    const good = feet([7, 8, 9, 10], 185);
    const [side, slip] = [right, { ...good[7], value: good[7].value / 2.54 }];
    const sd = (given: typeof good) => posteriorOf(child(given)).predict(side, [dayAt(10)]).sd[0];
    expect(sd([...good.slice(0, 7), slip]) / sd(good.slice(0, 7))).toBeCloseTo(1, 2);
    expect(sd(good) / sd(good.slice(0, 7))).toBeLessThan(0.95);
  });
  test.each([
    ['on the same centile', 0],
    ['a centile band and a half higher, as early spurts are', 1],
    ['lower', -1],
  ])('readings after three missing years are believed: %s', (_, shift) => {
    const knees = [6, 6.5, 7, 7.5, 10.6, 11.1, 11.6, 12.1].flatMap((age) =>
      (['left', 'right'] as const).map((side) =>
        reading(
          'knee_height',
          age,
          sizeAt('male', 'knee_height', age, age > 9 ? shift : 0) + (side === 'left' ? 2 : 0),
          {
            side,
          },
        ),
      ),
    );
    const posterior = posteriorOf(child(knees));
    expect(posterior.suspicions).toEqual([]);
    // None of them counts for less: the curve runs through every one, as sure as the readings are.
    for (const { side, date, value } of knees) {
      const there = posterior.predict({ measure: 'knee_height', side }, [dayNumber(date)]);
      expect(Math.abs(there.mean[0] - value)).toBeLessThan(3);
      expect(there.sd[0]).toBeLessThan(4);
    }
    // A slip among them is still found, and nothing but the slip.
    const slip = knees.map((m, i) => (i === 12 ? { ...m, value: m.value + 60 } : m));
    expect(posteriorOf(child(slip)).suspicions.map((s) => s.measurementId)).toEqual([knees[12].id]);
  });
  // Where the child's tempo is looked for too narrowly, too short or once only, true readings are doubted in one of these.
  test.each([
    [
      'a boy far ahead for a while, one slip',
      'male',
      'knee_height',
      { from: 6, visits: 4, gap: 3.1 },
      2,
      [4, 60],
    ],
    [
      'the same, seen earlier, the slip later',
      'male',
      'knee_height',
      { from: 4, visits: 4, gap: 4 },
      2,
      [7, 80],
    ],
    ['a boy ahead for a while', 'male', 'stature', { from: 6, visits: 7, gap: 3 }, 1.3, null],
    ['a girl who stays behind', 'female', 'stature', { from: 7, visits: 7, gap: 3 }, -1.6, null],
  ] as const)(
    'after missing years nothing but a slip is doubted: %s',
    (_, sex, measure, seen, shift, slip) => {
      const before = Array.from({ length: seen.visits }, (_, i) => ({ age: seen.from + 0.5 * i, z: 0 }));
      const again = before[before.length - 1].age + seen.gap;
      const after = [0, 1, 2, 3].map((i) => ({
        age: again + 0.5 * i,
        z: shift > 0 ? shift * (1 - i / 3) : shift,
      }));
      const sides = measure === 'stature' ? (['none'] as const) : (['left', 'right'] as const);
      const visits = [...before, ...after].map(({ age, z }, i) =>
        sides.map((side) => {
          const off = slip && i === slip[0] && side !== 'right' ? slip[1] : 0;
          return reading(measure, age, sizeAt(sex, measure, age, z) + (side === 'left' ? 2 : 0) + off, {
            side,
          });
        }),
      );
      const doubted = posteriorOf(child(visits.flat(), { sex })).suspicions.map((s) => s.measurementId);
      expect(doubted).toEqual(slip ? [visits[slip[0]][0].id] : []);
    },
  );
  test('a spurt is no gross error', () => {
    const spurt = [11, 12, 13, 14, 15].map((age, i) =>
      reading('stature', age, [1430, 1475, 1545, 1650, 1720][i]),
    );
    expect(posteriorOf(child(spurt)).suspicions).toEqual([]);
  });
});

describe('what else is known of a child', () => {
  const base = [10, 11, 12].map((age, i) => reading('stature', age, 1380 + 52 * i));
  const marker = (kind: MaturityMarker['kind'], age: number, value = 0): MaturityMarker => ({
    id: 'k',
    childId: 'invented',
    date: isoDate(dayAt(age)),
    kind,
    value,
    sdYears: null,
  });
  test.each([
    ['bone-age', 13.5],
    ['hand-stage', 3],
    ['maturity-offset', -0.8],
  ] as const)('a %s narrows tempo', (kind, value) => {
    const plain = posteriorOf(child(base));
    const marked = posteriorOf(child(base, { markers: [marker(kind, 12, value)] }));
    expect(marked.tempoYears.sd).toBeLessThan(plain.tempoYears.sd);
  });
  test('an advanced bone age means early, a late last pre-pubertal date means late', () => {
    const plain = posteriorOf(child(base)).tempoYears.mean;
    expect(posteriorOf(child(base, { markers: [marker('bone-age', 12, 14)] })).tempoYears.mean).toBeLessThan(
      plain,
    );
    expect(
      posteriorOf(child(base, { markers: [marker('pre-pubertal', 14)] })).tempoYears.mean,
    ).toBeGreaterThan(plain);
  });
  test('menarche at 11 puts a girl early', () => {
    const girl = [9, 10, 11].map((age, i) => reading('stature', age, 1330 + 60 * i));
    const p = posteriorOf(child(girl, { sex: 'female', markers: [marker('menarche', 11)] }));
    expect(p.peakVelocityAgeYears.mean).toBeLessThan(
      posteriorOf(child(girl, { sex: 'female' })).peakVelocityAgeYears.mean,
    );
  });
  test('measurements overrule a condition', () => {
    // Stature -3.13 SD is expected at a high lesion (Trollmann 1996); this child measures at the median.
    const tall = [8, 9, 10].map((age, i) => reading('stature', age, [1275, 1330, 1383][i]));
    const p = posteriorOf(child(tall, { conditions: ['myelomeningocele-high'] }));
    expect(
      Math.abs(
        p.zScore(
          { measure: 'stature', side: 'none' },
          dayAt(10),
          p.predict({ measure: 'stature', side: 'none' }, [dayAt(10)]).mean[0],
        ) as number,
      ),
    ).toBeLessThan(0.4);
  });
  test('an unknown sex is wider than either', () => {
    const days = [dayAt(15)];
    const s = { measure: 'stature', side: 'none' } as const;
    const [u, m, f] = (['unknown', 'male', 'female'] as const).map(
      (sex) => posteriorOf(child(base, { sex })).predict(s, days).sd[0],
    );
    expect(u).toBeGreaterThan(Math.max(m, f));
  });
  test('a child born at 28 weeks is compared at the age from the due date', () => {
    const s = { measure: 'stature', side: 'none' } as const;
    const correction = (12 * 7) / 365.25;
    const early = posteriorOf(child([reading('stature', 7 / 12, 640)], { gestationWeeks: 28 }));
    const younger = posteriorOf(child([reading('stature', 7 / 12 - correction, 640)]));
    const at = (p: typeof early, age: number) => p.predict(s, [dayAt(age)]).mean[0];
    // The same forecast as for a term child twelve weeks younger; the two ages round to days differently.
    expect(Math.abs(at(early, 1) - at(younger, 1 - correction))).toBeLessThan(1);
  });
  test('agreeing repeats of a day count as one better reading', () => {
    const s = { measure: 'stature', side: 'none' } as const;
    const once = posteriorOf(child([reading('stature', 9, 1330, { technicalError: 10 })]));
    const four = posteriorOf(
      child([1328, 1330, 1332, 1330].map((v) => reading('stature', 9, v, { technicalError: 10 }))),
    );
    expect(four.predict(s, [dayAt(9)]).sd[0]).toBeLessThan(0.6 * once.predict(s, [dayAt(9)]).sd[0]);
  });
});

describe('after growth', () => {
  test('nothing is left to grow at 19, something at 12', () => {
    const grown = posteriorOf(
      child([17, 18, 19].map((age) => reading('foot_length', age, 262, { side: 'left' }))),
    );
    const growing = posteriorOf(
      child([10, 11, 12].map((age, i) => reading('foot_length', age, 220 + 9 * i, { side: 'left' }))),
    );
    expect(grown.chanceOfFurtherGrowth(left, dayAt(19), 3)).toBeLessThan(0.15);
    expect(growing.chanceOfFurtherGrowth(left, dayAt(12), 3)).toBeGreaterThan(0.95);
  });
});

test('a reading two or three SD off is believed, at four it is doubted, at five it is set aside', () => {
  const doubtWhereOff = (mm: number) => {
    const rows = [6, 6.5, 7, 7.5, 8].map((age, i) =>
      reading('foot_length', age, 190 + 5 * i + (i === 2 ? mm : 0), { side: 'left' }),
    );
    return posteriorOf(child(rows)).suspicions.find((s) => s.measurementId === rows[2].id)?.probability ?? 0;
  };
  // The others make expect this one to 2.4 mm.
  expect(doubtWhereOff(7)).toBe(0);
  expect(doubtWhereOff(9)).toBeLessThan(0.3);
  expect(doubtWhereOff(12)).toBeGreaterThan(0.8);
});

test('of a child with one weak side that side is expected smaller, left and right', () => {
  const girth = (affectedSide: 'left' | 'right', side: 'left' | 'right') =>
    posteriorOf(child([reading('stature', 8, 1280)], { conditions: ['hemiplegia'], affectedSide })).predict(
      { measure: 'calf_girth', side },
      [dayAt(8)],
    ).mean[0];
  expect(girth('left', 'left')).toBeLessThan(girth('left', 'right') - 5);
  expect(girth('right', 'right')).toBeLessThan(girth('right', 'left') - 5);
});
