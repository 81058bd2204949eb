import fc from 'fast-check';
import type { Caseload } from '../../src/records/caseload.js';
import { addDaysIso } from '../../src/records/dates.js';
import { adjustmentKinds, endReasons, eventKinds, familyIds, stageIds } from '../../src/records/device.js';
import { type MeasureId, measureIds, measures } from '../../src/records/measure.js';
import { conditionIds } from '../../src/records/records.js';
import { loadRules } from '../../src/rules/load-rules.js';

export const TODAY = '2026-11-25';
const BORN_FROM = '2008-01-01';

const text = (maxLength: number) =>
  fc
    .oneof(
      fc.string({ unit: 'grapheme', maxLength }),
      // What breaks tables: quotes, delimiters, line breaks, formulas, blanks at the ends.
      fc.constantFrom(
        '',
        ' a',
        'a ',
        '"',
        'a"b',
        'a,b;c\td|e',
        'two\nlines',
        'two\r\nlines',
        '=1+1',
        "'=x",
        '-',
        '+44',
        '@x',
        'é',
        "''=",
        '\ufeffx',
      ),
    )
    .filter((s) => s.length <= maxLength);
const id = fc.oneof(
  fc.stringMatching(/^[A-Za-z0-9-]{1,20}$/),
  fc.constantFrom('a b', 'ü-1', 'x,y', '007', '=1', 'a/b'),
);
const extra = fc
  .dictionary(
    fc.oneof(
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }),
      fc.constantFrom('name', 'DOB', 'value_mm', 'foot_length_left_cm', 'extra:x', 'limit_x', ' '),
    ),
    text(20).filter((s) => s !== ''),
    { maxKeys: 3 },
  )
  .filter((map) => !Object.hasOwn(map, '__proto__'));
const date = (from: string, days: number) =>
  fc.integer({ min: 0, max: days }).map((n) => addDaysIso(from, n));
const laterDate = fc.integer({ min: 0, max: 300 });

const child = fc.record({
  id,
  name: text(40),
  birthDate: date(BORN_FROM, 365 * 10),
  sex: fc.constantFrom('male', 'female', 'unknown'),
  gestationWeeks: fc.option(fc.integer({ min: 22, max: 44 })),
  conditions: fc.uniqueArray(fc.constantFrom(...conditionIds), { maxLength: 3 }),
  affectedSide: fc.constantFrom('left', 'right', 'both', 'none'),
  insensateSkin: fc.boolean(),
  latexAlert: fc.boolean(),
  palliative: fc.boolean(),
  walks: fc.boolean(),
  siblingGroup: fc.option(text(40).filter((s) => s !== '')),
  transportDays: fc.uniqueArray(fc.integer({ min: 1, max: 7 })),
  prefersHolidays: fc.boolean(),
  clinician: text(40),
  contact: text(60),
  language: fc.constantFrom('en', 'es', 'ar'),
  status: fc.constantFrom('active', 'moved-away', 'discharged', 'died'),
  extra,
});

const size = (measure: MeasureId) => {
  const [min, max] = measures[measure].plausible;
  return fc.integer({ min: Math.ceil(min * 100), max: Math.floor(max * 100) }).map((n) => n / 100);
};
/** Some measures with a value each. */
const some = (value: (measure: MeasureId) => fc.Arbitrary<number>) =>
  fc
    .uniqueArray(fc.constantFrom<MeasureId>('foot_length', 'knee_height', 'calf_girth'), { maxLength: 2 })
    .chain((ids) => fc.tuple(...ids.map((measure) => value(measure).map((mm) => [measure, mm] as const))))
    .map((pairs) => Object.fromEntries(pairs) as Partial<Record<MeasureId, number>>);

const rooms = some(() => fc.integer({ min: 0, max: 20_000 }).map((n) => n / 100));

/** A caseload of valid records that belong together, with every awkward text a table can carry. */
export const anyCaseload: fc.Arbitrary<Caseload> = fc
  .uniqueArray(child, { selector: (c) => c.id, minLength: 1, maxLength: 4 })
  .chain((children) => {
    const ofChild = fc.constantFrom(...children.map((c) => c.id));
    const measurement = fc.constantFrom(...measureIds).chain((measure) =>
      fc.record({
        id,
        childId: ofChild,
        measure: fc.constant(measure),
        side: measures[measure].sided ? fc.constantFrom('left', 'right') : fc.constant('none'),
        value: size(measure),
        date: date('2018-06-01', 365 * 8),
        method: text(30),
        observer: text(30),
        technicalError: fc.option(
          fc.integer({ min: 6, max: 1900 }).map((n) => (n / 100) * measures[measure].technicalError),
        ),
        entered: text(20),
        extra,
      }),
    );
    const rules = loadRules();
    const device = fc.constantFrom(...familyIds).chain((family) => {
      const frame = rules.get(family)!.sides;
      const sides =
        frame === 'one' ? ['left', 'right'] : frame === 'both' ? ['left', 'right', 'both'] : ['none'];
      return fc
        .tuple(
          fc.record({
            id,
            childId: ofChild,
            family: fc.constant(family),
            side: fc.constantFrom(...sides),
            castDate: date('2018-06-01', 365 * 7),
            status: fc.constantFrom('ordered', 'worn', 'retired'),
            footplate: fc.constantFrom('full', 'behind-toes', 'none'),
            replaces: fc.option(id),
            hipAngleFrom: fc.option(fc.integer({ min: 0, max: 40 }), { nil: undefined }),
            hipAngleTo: fc.option(fc.integer({ min: 40, max: 90 }), { nil: undefined }),
            allowancesMm: rooms,
            limitsMm: some(size),
            extensionRangeMm: rooms,
            extra,
          }),
          fc.option(laterDate),
        )
        .map(([d, days]) => ({
          ...d,
          // What is still being made was not fitted.
          fittedDate: days === null || d.status === 'ordered' ? null : addDaysIso(d.castDate, days),
        }));
    });
    const marker = fc.record({
      id,
      childId: ofChild,
      date: date('2018-06-01', 365 * 8),
      kind: fc.constantFrom(
        'bone-age',
        'menarche',
        'hand-stage',
        'pelvis-stage',
        'pre-pubertal',
        'maturity-offset',
      ),
      value: fc.integer({ min: 1, max: 5 }),
      sdYears: fc.option(fc.integer({ min: 1, max: 30 }).map((n) => n / 10)),
    });
    const unique = <T extends { id: string }>(a: fc.Arbitrary<T>, maxLength: number) =>
      fc.uniqueArray(a, { selector: (r) => r.id, maxLength });
    return fc
      .tuple(unique(measurement, 8), unique(device, 4), unique(marker, 3))
      .chain(([measurements, devices, markers]): fc.Arbitrary<unknown> => {
        if (devices.length === 0)
          return fc.constant({
            children,
            measurements,
            devices,
            markers,
            events: [],
            jobs: [],
            skinChecks: [],
          });
        const ofDevice = fc.constantFrom(...devices);
        const event = fc
          .record({
            id,
            device: ofDevice,
            days: fc.integer({ min: 0, max: 365 }),
            kind: fc.constantFrom(...eventKinds),
            which: fc.option(fc.nat()),
            side: fc.option(fc.constantFrom('left', 'right', 'none')),
            changeMm: fc.option(fc.integer({ min: -2000, max: 2000 }).map((n) => n / 10)),
            adjustment: fc.option(fc.constantFrom(...adjustmentKinds, 'other')),
            verdict: fc.constantFrom('loose', 'good', 'tight', 'outgrown'),
            hipAngleLeft: fc.option(fc.integer({ min: 0, max: 90 }), { nil: undefined }),
            endReason: fc.option(fc.constantFrom(...endReasons)),
            note: text(100),
          })
          .map(({ device: d, days, which, side, endReason, ...e }) => {
            const limiting = rules.get(d.family)!.dimensions;
            const measure = which === null ? null : limiting[which % limiting.length].measure;
            const takesSide = d.side === side && (measure === null || measures[measure].sided);
            return {
              ...e,
              deviceId: d.id,
              date: addDaysIso(d.castDate, days),
              measure,
              side: takesSide || side === 'none' ? side : null,
              endReason: e.kind === 'retired' ? endReason : null,
              hipAngleLeft: e.kind === 'verdict' ? e.hipAngleLeft : undefined,
              // An adjustment without its mm is refused.
              changeMm: e.kind === 'adjusted' ? (e.changeMm ?? 2.5) : e.changeMm,
            };
          });
        const skinCheck = fc
          .record({
            id,
            device: ofDevice,
            date: date('2018-06-01', 365 * 7),
            mark: fc.constantFrom(
              { state: 'none', minutes: null },
              { state: 'fades', minutes: 20 },
              { state: 'lasts', minutes: 21 },
              { state: 'lasts', minutes: null },
              { state: 'open', minutes: 0 },
            ),
            where: text(60),
            side: fc.option(fc.constantFrom('left', 'right', 'none')),
            cannotWarn: fc.boolean(),
            observer: text(30),
            note: text(100),
          })
          .map(({ device: d, mark, ...s }) => ({ ...s, ...mark, deviceId: d.id, childId: d.childId }));
        const job = fc
          .record({
            id,
            device: ofDevice,
            gaps: fc.array(fc.integer({ min: 0, max: 20 }), {
              minLength: stageIds.length,
              maxLength: stageIds.length,
            }),
            upTo: fc.integer({ min: 0, max: stageIds.length }),
            status: fc.constantFrom('in-progress', 'fitted', 'cancelled'),
          })
          .map(({ device: d, gaps, upTo, ...j }) => {
            const days = gaps.map((_, i) => gaps.slice(0, i + 1).reduce((a, b) => a + b, 0));
            const stages = Object.fromEntries(
              stageIds.slice(0, upTo).map((s, i) => [s, addDaysIso(d.castDate, days[i])]),
            );
            return { ...j, deviceId: d.id, family: d.family, stages };
          });
        return fc
          .tuple(unique(event, 4), unique(job, 3), unique(skinCheck, 3))
          .map(([events, jobs, skinChecks]) => ({
            children,
            measurements,
            devices,
            markers,
            events,
            jobs,
            skinChecks,
          }));
      });
  })
  .map((caseload) => caseload as unknown as Caseload);
