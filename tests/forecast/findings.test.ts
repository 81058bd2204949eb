import { describe, expect, it } from 'vitest';
import { cautions } from '../../src/forecast/cautions.js';
import { findFindings } from '../../src/forecast/flags/find-findings.js';
import { type SkinCheck, skinCheckRecord } from '../../src/records/skin-check.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { buildChild } from './build-record.js';

const TODAY = '2026-11-25';
const rules = loadRules();
const check = (date: string, state: string, more: Record<string, unknown> = {}) =>
  skinCheckRecord.parse({ id: `s-${date}-${state}`, childId: 'c1', date, state, ...more });
const child = (more: Record<string, unknown> = {}) =>
  buildChild(TODAY, 8, { sex: 'male', ...more })
    .measured('foot_length', 'left', 0, 200)
    .device('solid-afo', 'left', 5);
const findings = (built: ReturnType<typeof child>) => findFindings(built.record, rules, TODAY);
const withChecks = (built: ReturnType<typeof child>, ...checks: ReturnType<typeof check>[]) => {
  (built.record.skinChecks as SkinCheck[]).push(...checks);
  return built;
};

// Redness of more than 20-30 minutes, swelling, pain, rash, blister or breakage: stop and ring (NHS Fife leaflet, excerpt).
describe('findings', () => {
  it('sees lasting redness and open skin of a skin check now, and nothing in a mark that fades', () => {
    const lasts = check('2026-11-20', 'lasts', { minutes: 40, where: 'heel', side: 'left' });
    expect(findings(withChecks(child(), lasts))).toEqual([
      {
        kind: 'skin-lasting',
        severity: 'see-now',
        where: 'heel',
        side: 'left',
        minutes: 40,
        date: '2026-11-20',
        source: 'skin-check',
        deviceId: null,
        words: '',
      },
    ]);
    expect(findings(withChecks(child(), check('2026-11-20', 'open')))[0]).toMatchObject({
      kind: 'skin-open',
      severity: 'see-now',
    });
    expect(findings(withChecks(child(), check('2026-11-20', 'fades', { minutes: 20 })))).toEqual([]);
    expect(findings(withChecks(child(), check('2026-11-20', 'none')))).toEqual([]);
  });

  it('forgets a finding that a later look answered, and no other', () => {
    const lasts = check('2026-11-10', 'lasts');
    expect(findings(withChecks(child(), lasts, check('2026-11-20', 'none')))).toEqual([]);
    expect(findings(withChecks(child(), lasts, check('2026-11-20', 'fades')))).toEqual([]);
    expect(findings(withChecks(child(), lasts, check('2026-11-10', 'none')))).toHaveLength(1);
    expect(findings(withChecks(child(), lasts, check('2026-11-01', 'none')))).toHaveLength(1);
    expect(findings(withChecks(child(), lasts, check('2026-11-20', 'lasts')))).toHaveLength(2);
    // Words not known here about the skin: asked about until somebody has looked at it.
    const odd = () => child().event('verdict', 1, { note: 'the heel looks waxy' });
    expect(findings(odd()).map((f) => f.kind)).toEqual(['unclear']);
    expect(findings(withChecks(odd(), check('2026-11-20', 'none')))).toEqual([]);
    const other = check('2026-11-20', 'none', { deviceId: 'another' });
    expect(findings(withChecks(child(), { ...lasts, deviceId: 'd1' }, other))).toHaveLength(1);
  });

  // Common practice, no source: nobody crosses out a wound or a broken strap because two months have passed.
  it('still asks about what was urgent long ago until somebody has looked or the device is off', () => {
    const severity = (built: ReturnType<typeof child>) => findings(built).map((f) => f.severity);
    const noted = (note: string) => child().event('verdict', 4, { note });
    expect(severity(noted('open sore at heel'))).toEqual(['look']);
    // What is done about it is what its flag says: somebody rings, and nobody is told to come today before that.
    const [asked] = noted('open sore at heel')
      .assess()
      .flags.filter((f) => f.finding);
    expect(asked).toMatchObject({ severity: 'check', title: cautions.longAgo.title });
    expect(severity(noted('strap snapped'))).toEqual(['repair']);
    expect(severity(noted('red over navicular'))).toEqual([]);
    expect(severity(noted('numb toes in it').event('verdict', 1, { verdict: 'good' }))).toEqual([]);
    expect(severity(noted('numb toes in it').event('verdict', 1, { verdict: 'tight' }))).toEqual(['look']);
    expect(severity(noted('numb toes in it').event('retired', 1, {}))).toEqual([]);
    expect(severity(noted('strap snapped').event('retired', 1, {}))).toEqual([]);
  });

  it('takes a broken part for mended by a repair, not by a word on the fit', () => {
    const broken = () => child().event('verdict', 1, { note: 'strap snapped' });
    const kinds = (built: ReturnType<typeof child>) => findings(built).map((f) => f.kind);
    expect(kinds(broken().event('verdict', 0, { verdict: 'good' }))).toEqual(['broken']);
    expect(kinds(broken().event('adjusted', 0, {}))).toEqual([]);
  });

  it('reads the notes of a verdict and says where they came from', () => {
    const noted = child().event('verdict', 1, {
      verdict: 'good',
      note: 'no pain, red over malleolus 40 min',
    });
    expect(findings(noted)).toMatchObject([
      { kind: 'skin-lasting', severity: 'see-now', where: 'malleolus', minutes: 40, source: 'verdict' },
    ]);
    const clear = noted.event('verdict', 0, { verdict: 'good', note: 'skin intact' });
    expect(findings(clear)).toEqual([]);
    const broken = child().event('adjusted', 1, { note: 'strap broken' });
    expect(findings(broken)).toMatchObject([{ kind: 'broken', severity: 'repair', source: 'note' }]);
  });

  it('sees a mere mark now where the skin cannot warn', () => {
    const note = { verdict: 'good', note: 'red over navicular' };
    expect(findings(child().event('verdict', 1, note))).toMatchObject([{ severity: 'look' }]);
    expect(findings(child({ insensateSkin: true }).event('verdict', 1, note))).toMatchObject([
      { severity: 'see-now' },
    ]);
    const numb = withChecks(
      child().event('verdict', 1, note),
      check('2026-06-01', 'none', { cannotWarn: true }),
    );
    expect(findings(numb)).toMatchObject([{ severity: 'see-now' }]);
    // Under another device it says nothing of the skin here.
    const elsewhere = check('2026-06-01', 'none', { cannotWarn: true, deviceId: 'another' });
    expect(findings(withChecks(child().event('verdict', 1, note), elsewhere))).toMatchObject([
      { severity: 'look' },
    ]);
    // And it is told in the words of skin that lasts, not of a mark that may fade.
    const told = (more: Record<string, unknown>) =>
      child(more)
        .event('verdict', 1, note)
        .assess()
        .flags.find((f) => f.finding?.kind === 'skin-mark')?.caution;
    expect(told({ insensateSkin: true })).toMatch(/stop wear until seen/);
    expect(told({})).not.toMatch(/stop wear until seen/);
  });

  it('raises an act-now flag that heads the list', () => {
    const built = withChecks(child(), check('2026-11-20', 'lasts', { minutes: 40 }));
    const { flags } = built.assess();
    expect(flags[0]).toMatchObject({ severity: 'act-now' });
    expect(flags[0].caution).toMatch(/stop wear until seen/);
    expect(flags[0].seen).toMatch(/lasts, 40 minutes/);
    expect(flags.filter((f) => f.severity === 'act-now')).toHaveLength(1);
    // Seen twice, it is one flag, and of the later day.
    const twice = withChecks(
      child(),
      check('2026-11-08', 'lasts', { minutes: 50 }),
      check('2026-11-20', 'lasts', { minutes: 40 }),
    );
    const lasting = twice.assess().flags.filter((f) => f.finding?.kind === 'skin-lasting');
    expect(lasting.map((f) => f.finding?.date)).toEqual(['2026-11-20']);
    const [device] = built.record.devices;
    const under = withChecks(child(), check('2026-11-20', 'lasts', { deviceId: device.id })).assess();
    expect(under.flags[0]).toMatchObject({ severity: 'act-now', deviceId: device.id });
  });

  it('speaks of vomiting only beside a helmet', () => {
    const helmet = buildChild(TODAY, 0.5, { sex: 'male' })
      .measured('head_circumference', 'none', 0, 430)
      .device('cranial-orthosis', 'none', 1)
      .event('verdict', 0, { verdict: 'good', note: 'vomited twice, drowsy' });
    expect(helmet.assess().flags[0].caution).toMatch(/emergency care at once/);
    const leg = child().event('verdict', 0, { verdict: 'good', note: 'vomited twice' });
    expect(findings(leg)).toEqual([]);
  });
});

describe('an operation told of with its time', () => {
  const told = (castMonthsAgo: number, note: string) =>
    findings(
      buildChild(TODAY, 7, { sex: 'female' })
        .device('solid-afo', 'left', castMonthsAgo)
        .event('verdict', 0, { verdict: 'good', note }),
    ).map((f) => f.kind);
  it.each(['gastroc recession 2/12 ago, healed well', 'six weeks post TAL', 'SDR last month'])(
    '%s',
    (note) => {
      expect(told(5, note)).toEqual(['fit-changed']);
      // Cast after it, the device was made for what it left.
      expect(told(0.5, note)).toEqual([]);
    },
  );
  it('is long past after a year', () => expect(told(5, 'TAL 3 years ago')).toEqual([]));
});

describe('minutes and state of a skin check say the same', () => {
  it.each([
    ['none', 5],
    ['fades', 21],
    ['lasts', 20],
  ])('%s with %i minutes is refused', (state, minutes) =>
    expect(() => check('2026-11-20', state, { minutes })).toThrow(/minutes/),
  );
});

describe('a dimension without a growth curve', () => {
  const wide = (atCast: number, now: number, allowanceMm?: number) => {
    const built = child()
      .measured('malleolar_width', 'left', 5, atCast)
      .measured('malleolar_width', 'left', 0, now);
    if (allowanceMm !== undefined) built.record.devices[0].allowancesMm.malleolar_width = allowanceMm;
    return built.assess();
  };
  it('asks for a look once its room is used up beyond measuring error, and sets no date', () => {
    const seen = wide(50, 56);
    expect(seen.flags.find((f) => f.id.startsWith('uncurved-malleolar_width'))).toMatchObject({
      severity: 'check',
    });
    expect(seen.forecasts[0].p50).toEqual(wide(50, 50).forecasts[0].p50);
    const asked = (...of: Parameters<typeof wide>) =>
      wide(...of).flags.some((f) => f.id.startsWith('uncurved'));
    expect(asked(50, 53)).toBe(false);
    // Real growth in a device made for it; and past a narrow limit by less than two readings can tell (1.96 x 1.5 x sqrt 2 = 4.2 mm).
    expect([asked(50, 56, 10), asked(50, 54, 2), asked(50, 55, 2)]).toEqual([false, false, true]);
  });

  it('not of a device that is not worn, nor of readings too old to say anything of today', () => {
    const asked = (months: number, more: Record<string, unknown> = {}) =>
      buildChild(TODAY, 9, { sex: 'male' })
        .measured('malleolar_width', 'left', 14, 50)
        .measured('malleolar_width', 'left', months, 58)
        .device('solid-afo', 'left', 14, more)
        .assess()
        .flags.some((f) => f.id.startsWith('uncurved'));
    expect([asked(6), asked(7)]).toEqual([true, false]);
    expect(asked(0, { status: 'retired' })).toBe(false);
  });
});

describe('a difference between the legs', () => {
  const legs = (left: number, right: number) =>
    buildChild(TODAY, 9, { sex: 'male', conditions: ['leg-length-difference'] })
      .measured('asis_malleolus_length', 'left', 0, left)
      .measured('asis_malleolus_length', 'right', 0, right)
      .measured('stature', 'none', 0, 1330)
      .assess();
  // Two readings of technical error 7 mm: 1.96 x 7 x sqrt 2 = 19 mm.
  it('asks whether a raise is wanted, with the measuring error beside the difference', () => {
    const found = legs(652, 664).flags.find((f) => f.id === 'leg-difference');
    expect(found?.seen).toMatch(/left shorter by 12 mm; two such readings cannot tell less than 19 mm apart/);
    expect(found?.seen).toMatch(/Is a raise wanted/);
    expect(found?.caution).toMatch(/measure with blocks/);
  });
  it('never takes the tape length from ASIS to malleolus for a subischial length', () => {
    const { growth } = legs(652, 664);
    const posterior = growth.kind === 'posterior' ? growth.posterior : null;
    expect(posterior?.zScore({ measure: 'asis_malleolus_length', side: 'left' }, 20_000, 652)).toBeNull();
  });
});
