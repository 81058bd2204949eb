import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chartWords } from '../../src/charts/chart-words.js';
import type { ForecastOutcome } from '../../src/forecast/contract.js';
import { actionIds } from '../../src/recall/contract.js';
import { addDaysIso } from '../../src/records/dates.js';
import { FADES_WITHIN_MINUTES } from '../../src/records/skin-check.js';
import { regions } from '../../src/rules/fit-rule.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { deviceAnswer } from '../../src/words/family/device-answer.js';
import { familyLanguages, familyWords, firstLanguage } from '../../src/words/family/family-languages.js';
import type { FamilyWords, WornDevice } from '../../src/words/family/family-words.js';
import { letterReason } from '../../src/words/family/letter-reason.js';
import {
  firstThirdAfter,
  lastThirdBefore,
  type MonthThird,
  thirdOf,
} from '../../src/words/family/month-thirds.js';
import { urgentReason, wornDevice } from '../../src/words/family/worn-device.js';
import { plainMeasure } from '../../src/words/measure-names.js';
import { reasonSentence } from '../../src/words/reason-sentence.js';
import { readingGrade } from '../browser/reading-grade.js';

const rules = loadRules();
const TODAY = '2026-11-27';
const worn = (family: string, side: WornDevice['side'] = 'left'): WornDevice => {
  const { names, region } = rules.get(family)!;
  return { names, region, side };
};
const hip = worn('hip-abduction-orthosis', 'both');
const helmet = worn('cranial-orthosis', 'none');
const afo = worn('solid-afo');
const en = familyWords('en');
const told = (outcome: ForecastOutcome, p10: string | null, p50: string | null, p90: string | null) => ({
  outcome,
  today: TODAY,
  p10,
  p50,
  p90,
});
const fits = told('forecast', '2027-03-13', '2027-05-02', '2027-08-20');

/** Every sentence a family can read of these devices. */
function sentences(insensate: boolean, w: FamilyWords = en): string[] {
  const devices = [...rules.values()].map(
    ({ names, region }): WornDevice => ({ names, region, side: 'left' }),
  );
  return [
    ...devices.flatMap((d) =>
      actionIds.flatMap((a) =>
        (['skin', 'head', 'breathing', 'other'] as const).flatMap((why) => w.wanted(a, d, why) ?? []),
      ),
    ),
    ...devices.flatMap((d) => [w.mayBeSmall(w.device(d)), w.longTime(w.device(d)), w.byWear(w.device(d))]),
    ...regions.flatMap((r) => {
      const { title, signs } = w.signs(r, insensate);
      return [...signs.map((s) => `${title}: ${s}.`), w.skinEveryDay(r), w.emergency(r) ?? ''].filter(
        Boolean,
      );
    }),
    w.meaning(w.month({ third: 'early', month: '2027-03' }), w.month({ third: 'middle', month: '2027-08' })),
    w.guess,
    w.correctedAge(9),
    w.skinInsensate,
    w.doNotWait(insensate),
    w.visitBefore('12 May 2027'),
    w.visitToday,
    w.visitNow,
    w.visitUsual,
    w.bring(true),
    w.bring(false),
    w.shoes({ EU: '33', UK: '1½', US: '2', Mondopoint: '205' }),
    w.shoesNext(w.month({ third: 'early', month: '2027-03' })),
    w.noDevice,
    w.marks,
    w.beingMade(w.device(devices[0]), '12 May 2027'),
    w.beingMade(w.device(devices[0]), null),
    w.linkUntil('12 May 2027'),
    w.title('Ana'),
    ...actionIds.flatMap((a) => w.letterWhy[a] || []),
    ...[w.questions.title, w.questions.toes, w.questions.marks, w.questions.marksHip],
  ];
}

describe('words for a family', () => {
  // Flesch-Kincaid grade 6: eleven to twelve years (Kincaid and others 1975, coefficients from memory).
  it('can be read by a child of eleven', () => {
    expect(readingGrade(sentences(false).join(' '))).toBeLessThanOrEqual(6);
    expect(readingGrade(sentences(true).join(' '))).toBeLessThanOrEqual(6);
  });

  it('says stop wearing it and ring today for lasting redness', () => {
    const { sentence: say } = deviceAnswer(en, afo, 'see-now', fits, 'skin');
    expect(say).toBe('Stop wearing the left lower leg brace and call us today.');
    expect(en.signs('ankle-foot', false).signs[0]).toBe('redness that stays longer than 20 minutes');
    expect(en.signs('ankle-foot', false).title).toMatch(/Stop wearing it and call us today/);
  });

  it('says in every language where to look under a device of the leg, hip, head, trunk or hand', () => {
    const apart = ['ankle-foot', 'hip', 'head', 'trunk', 'wrist-hand'] as const;
    for (const w of familyLanguages) {
      const said = apart.map((region) => w.skinEveryDay(region));
      expect(new Set(said).size, w.language).toBe(apart.length);
      expect(w.skinEveryDay('foot'), w.language).toBe(w.skinEveryDay('ankle-foot'));
    }
  });

  it('speaks every language whole: no gap, no English left, day and month where they belong', () => {
    for (const w of familyLanguages)
      for (const said of sentences(true, w)) {
        expect(said, w.language).not.toMatch(/[{}]|undefined|null|NaN/);
        if (w !== en) expect(said, w.language).not.toMatch(/\b(the|brace|your|skin|call us)\b/i);
      }
    for (const w of familyLanguages.filter((l) => l !== en)) {
      expect(w.fitsUntil('x', w.month({ third: 'early', month: '2027-03' }))).toContain('2027');
      expect(w.visitBefore('(day)')).toContain('(day)');
      expect(w.unchecked.length).toBeGreaterThan(20);
      const [chart, inEnglish] = [chartWords(w.language), chartWords('en')];
      expect(chart.familyNote, w.language).not.toBe(inEnglish.familyNote);
      expect(chart.braceRoom, w.language).not.toBe(inEnglish.braceRoom);
      expect(plainMeasure('foot_length', w.language), w.language).not.toBe(plainMeasure('foot_length', 'en'));
    }
    // The case that 'beginning of' wants (Intl, Unicode CLDR): marzec would be wrong.
    expect(familyWords('pl').month({ third: 'early', month: '2027-03' })).toBe('początku marca 2027');
    expect(familyWords('uk').month({ third: 'middle', month: '2027-03' })).toBe('середини березня 2027');
    expect(familyWords('ar-EG').direction).toBe('rtl');
    expect(firstLanguage(['de-DE', 'tr', 'en'])).toBe('tr');
    expect(firstLanguage(['de'])).toBeNull();
  });

  it('has every caution in every language or in none', () => {
    const whys = ['skin', 'head', 'breathing', 'other'] as const;
    for (const w of familyLanguages)
      for (const region of regions) {
        for (const numb of [false, true]) {
          const { signs } = w.signs(region, numb);
          expect(signs, `${w.language} ${region}`).toHaveLength(en.signs(region, numb).signs.length);
          expect(new Set(signs).size).toBe(signs.length);
        }
        expect(Boolean(w.emergency(region)), `${w.language} ${region}`).toBe(Boolean(en.emergency(region)));
        const device = { ...afo, region };
        for (const action of actionIds)
          for (const why of whys)
            expect(
              w.wanted(action, device, why)?.match(/[.!؟]/g)?.length,
              `${w.language} ${region} ${action}`,
            ).toBe(en.wanted(action, device, why)?.match(/[.!]/g)?.length);
      }
  });

  it('tells in a letter of any language what to do until it is seen, and leaves a hip orthosis on', () => {
    for (const w of familyLanguages.filter((l) => l !== en))
      for (const [family, flag] of [
        ['solid-afo', 'finding-skin-open-d1'],
        ['hip-abduction-orthosis', 'finding-skin-open-d1'],
        ['cranial-orthosis', 'head-growth-up'],
        ['spinal-orthosis', 'finding-breathing-d1'],
      ]) {
        const one = {
          action: 'see-now',
          reason: { code: 'red-flag', numbers: { flag } },
          family,
          side: 'none',
        };
        const letter = { ...one, devices: [one] } as unknown as Parameters<typeof letterReason>[1];
        const { names, region } = rules.get(family)!;
        expect(letterReason(w, letter, rules), w.language).toBe(
          w.wanted('see-now', { names, region, side: 'none' }, urgentReason(flag)),
        );
      }
  });

  it('comforts nobody with a long time', () => {
    for (const w of familyLanguages)
      expect(w.longTime(w.device(afo)), w.language).not.toMatch(
        /long time|longtemps|mucho tiempo|długo|uzun süre|довго|طويلة/,
      );
    expect(en.longTime('it')).toMatch(/check it at each visit/);
  });

  it('never has a hip orthosis taken off unasked', () => {
    for (const w of familyLanguages)
      for (const action of actionIds) {
        const said = deviceAnswer(w, hip, action, fits, 'skin').sentence;
        const told = [
          said,
          w.signs('hip', false).title,
          w.signs('hip', false).signs.join(' '),
          w.skinEveryDay('hip'),
        ];
        expect(told.join(' ')).not.toMatch(/stop wearing|take (it|the brace) off|deje de usar/i);
        expect(told.join(' ').replace(/no (la )?quite/gi, '')).not.toMatch(/\bquite\b/i);
        const stop = {
          ar: /توقفوا عن|انزعوا/,
          tr: /bırakın|(?<!Ortezi )çıkarın/,
          pl: /przestać|Proszę zdjąć/,
          fr: /arrêtez|enlevez-la|Enlevez l/i,
          uk: /перестаньте|Зніміть/i,
        }[w.language];
        if (stop) expect(told.join(' '), w.language).not.toMatch(stop);
      }
    expect(deviceAnswer(en, hip, 'see-now', fits, 'skin').sentence).toMatch(
      /Leave the hip brace on until we tell you/,
    );
  });

  it('a hip orthosis that must be mended, or is looked round, stays on; anything else broken does not', () => {
    expect(en.wanted('repair', hip, 'other')).toMatch(/Leave it on until we tell you/);
    for (const other of [helmet, afo])
      expect(en.wanted('repair', other, 'other')).toMatch(/Do not wear it with a loose or sharp part/);
    expect(en.questions.marksHip).toMatch(/Do not take it off to look/);
    expect(en.questions.marksHip).not.toMatch(/(?<!not )take (it|the brace) off/i);
  });

  it('has the skin that cannot warn looked at morning and evening, every day', () => {
    expect(en.skinInsensate).toMatch(/morning and in the evening, every day/);
  });

  it.each([
    ['head-growth-up', 'head'],
    ['head-growth-down', 'head'],
    ['finding-head-warning-child', 'head'],
    ['finding-breathing-d1', 'breathing'],
    ['finding-skin-open-d1', 'skin'],
    ['finding-pain-d1', 'skin'],
    ['finding-numbness-d1', 'other'],
  ])('a flag %s is told as %s', (id, why) => expect(urgentReason(id)).toBe(why));

  it('what must be done today is said before that it may be too small, and that before any date', () => {
    const small = told('already-outgrown', null, null, null);
    expect(deviceAnswer(en, afo, 'see-now', small, 'skin').sentence).toMatch(/Stop wearing/);
    expect(deviceAnswer(en, afo, 'repair', small).sentence).toMatch(/must be mended/);
    expect(deviceAnswer(en, afo, 'none', small).sentence).toMatch(/may be too small now/);
    expect(deviceAnswer(en, afo, 'none', told('forecast', '2026-01-01', TODAY, null)).sentence).toMatch(
      /may be too small/,
    );
  });

  it('names vomiting, drowsiness and a bulging soft spot for a head that crosses centiles', () => {
    const { sentence: say } = deviceAnswer(en, helmet, 'see-now', told('blocked', null, null, null), 'head');
    for (const text of [say, en.emergency('head')!]) {
      expect(text).toMatch(/throws up/);
      expect(text).toMatch(/sleepy/);
      expect(text).toMatch(/soft spot that bulges/);
      expect(text).toMatch(/hospital at once/);
    }
    expect(say).toMatch(/Leave the helmet off and call us today/);
    expect(familyWords('es').emergency('head')).toMatch(/vomita.*dormido.*fontanela abultada/);
    expect(deviceAnswer(en, worn('spinal-orthosis', 'none'), 'see-now', fits, 'breathing').sentence).toMatch(
      /hard to breathe/,
    );
  });

  it('never says that what nothing is known of will fit for a long time', () => {
    for (const outcome of [
      'too-few-measurements',
      'blocked',
      'no-rule',
      'not-computed',
      'not-in-use',
    ] as const)
      for (const action of ['none', 'review'] as const)
        for (const w of familyLanguages)
          expect(deviceAnswer(w, afo, action, told(outcome, null, null, null)).sentence, w.language).toBe(
            w.wanted('check', afo, 'other'),
          );
  });

  // The letter's and the telephone's sentence; the flag's id says why.
  it.each([
    ['solid-afo', 'finding-skin-lasting-d1', /please stop wearing the left lower leg brace until then/],
    ['hip-abduction-orthosis', 'finding-skin-lasting-d1', /please leave the hip brace on until we tell you/],
    [
      'cranial-orthosis',
      'head-growth-up',
      /leave the .*helmet off.*throws up, is very sleepy or has a soft spot/,
    ],
    ['spinal-orthosis', 'finding-breathing-d1', /take the .* off, and call for help at once/],
  ])('says of %s what to do until it is seen (%s)', (family, flag, said) => {
    const side = family === 'solid-afo' ? 'left' : 'none';
    for (const numb of [false, true]) {
      const text = reasonSentence(
        { action: 'see-now', reason: { code: 'red-flag', numbers: { flag } } },
        [{ family, side }],
        numb,
        rules,
      );
      expect(text).toMatch(said);
      if (family.startsWith('hip')) expect(text).not.toMatch(/stop wearing|take .* off/);
      if (numb) expect(text).not.toMatch(/pain|hurts/);
    }
  });

  it('leaves a broken hip orthosis on in the sentence of the letter, too', () => {
    const broken = (family: string) =>
      reasonSentence(
        { action: 'repair', reason: { code: 'broken', numbers: { on: '2026-11-20' } } },
        [{ family, side: 'none' }],
        false,
        rules,
      );
    expect(broken('hip-abduction-orthosis')).toMatch(/please leave the hip brace on until we tell you/);
    expect(broken('hip-abduction-orthosis')).not.toMatch(/stop wearing/);
    expect(broken('solid-afo')).toMatch(/stop wearing anything with a loose or sharp part/);
  });

  it('names a helmet, a breath and cold toes among the signs, and counts no minutes where nothing comes off', () => {
    expect(en.signs('head', false).signs.join()).toMatch(/will not wear it/);
    expect(en.emergency('trunk')).toMatch(/Call for help at once.*hard to breathe/);
    for (const region of ['ankle-foot', 'long-leg', 'boots', 'foot'] as const)
      for (const numb of [false, true])
        expect(en.signs(region, numb).signs.join()).toMatch(/toes that are cold/);
    for (const numb of [false, true]) {
      expect(en.signs('hip', numb).signs.join()).not.toMatch(/minutes/);
      expect(en.signs('hip', numb).signs[0]).toMatch(/redness/);
    }
  });

  it('gives each region its own signs', () => {
    const all = ['head', 'trunk', 'hip', 'foot', 'wrist-hand', 'boots', 'knee'] as const;
    const lists = all.map((r) => en.signs(r, false).signs.join());
    expect(new Set(lists).size).toBe(all.length);
    expect(en.signs('trunk', false).signs.join()).toMatch(/breathing/);
    expect(en.signs('foot', false).signs.join()).toMatch(/toes/);
  });

  it('never waits for pain where the skin cannot warn', () => {
    for (const region of regions) {
      expect(en.signs(region, true).signs.join(' ')).not.toMatch(/pain|hurt/);
      for (const [language, pain] of [
        ['es', /dolor|duel/],
        ['fr', /douleur|mal\b/],
        ['pl', /ból|boli/],
        ['tr', /ağrı|acı/],
        ['uk', /біль|болить/],
        ['ar', /ألم|يؤلم/],
      ] as const)
        expect(familyWords(language).signs(region, true).signs.join(' '), language).not.toMatch(pain);
    }
    expect(en.doNotWait(true)).not.toMatch(/hurt/);
    expect(en.signs('foot', false).signs.join(' ')).toMatch(/pain/);
  });

  // The words of each language for these, from memory.
  it.each([
    {
      language: 'en',
      today: /today/,
      now: /now/,
      week: /this week/,
      until: /until we tell you/,
      wait: /Do not wait/,
      skin: /skin/,
      left: /left/,
      right: /right/,
    },
    {
      language: 'es',
      today: /hoy/,
      now: /ahora/,
      week: /esta semana/,
      until: /hasta que se lo digamos/,
      wait: /No espere/,
      skin: /piel/,
      left: /izquierda/,
      right: /derecha/,
    },
    {
      language: 'fr',
      today: /aujourd’hui/,
      now: /maintenant/,
      week: /cette semaine/,
      until: /avant que nous|jusqu’à notre/,
      wait: /N’attendez pas/,
      skin: /peau/,
      left: /gauche/,
      right: /droite/,
    },
    {
      language: 'tr',
      today: /bugün/,
      now: /şimdi/,
      week: /bu hafta/,
      until: /Biz söyleyene kadar/,
      wait: /beklemeyin/,
      skin: /Cilt/,
      left: /sol/,
      right: /sağ/,
    },
    {
      language: 'pl',
      today: /dzisiaj/,
      now: /teraz/,
      week: /w tym tygodniu/,
      until: /dopóki nie powiemy/,
      wait: /nie czekać/,
      skin: /skóra/,
      left: /lewa/,
      right: /prawa/,
    },
    {
      language: 'uk',
      today: /сьогодні/,
      now: /зараз/,
      week: /цього тижня/,
      until: /доки ми не скажемо/,
      wait: /Не чекайте/,
      skin: /шкіра/,
      left: /лівий/,
      right: /правий/,
    },
    {
      language: 'ar',
      today: /اليوم/,
      now: /الآن/,
      week: /هذا الأسبوع/,
      until: /حتى نخبركم/,
      wait: /لا تنتظروا/,
      skin: /الجلد/,
      left: /اليسرى/,
      right: /اليمنى/,
    },
  ])('says in $language when to ring, what stays on, and what is not waited for', (said) => {
    const { today, now, week, until, wait, skin, left, right } = said;
    const w = familyWords(said.language);
    for (const device of [afo, hip, helmet, worn('spinal-orthosis', 'none')]) {
      for (const why of ['skin', 'head', 'breathing', 'other'] as const)
        expect(w.wanted('see-now', device, why)).toMatch(today);
      expect(w.wanted('repair', device, 'other')).toMatch(today);
      expect(w.signs(device.region, false).title).toMatch(today);
    }
    const atTheHip = [w.wanted('see-now', hip, 'skin'), w.wanted('repair', hip, 'other')];
    for (const text of [...atTheHip, w.signs('hip', true).title]) expect(text).toMatch(until);
    expect(w.visitToday).toMatch(today);
    expect(w.visitToday).toMatch(now);
    for (const text of [w.visitNow, w.letterSoon]) {
      expect(text).toMatch(week);
      expect(text).not.toMatch(today);
    }
    expect(w.skinInsensate).toMatch(wait);
    for (const text of [w.doNotWait(true), w.doNotWait(false)]) expect(text).toMatch(wait);
    expect(w.doNotWait(true)).toMatch(skin);
    // Minutes until a mark has gone: as in the rule for skin checks.
    const minutes = [w.marks, w.signs('ankle-foot', false).signs[0], w.questions.marksAnswers.fades];
    for (const text of minutes) expect(text).toMatch(new RegExp(`\\b${FADES_WITHIN_MINUTES}\\b`));
    expect(w.device(worn('solid-afo'))).toMatch(left);
    expect(w.device(worn('solid-afo', 'right'))).toMatch(right);
  });

  it('says "may be too small" only when that is likelier than not, and never "children like yours"', () => {
    const small = (p50: string | null, outcome: ForecastOutcome = 'forecast') =>
      /may be too small/.test(deviceAnswer(en, afo, 'none', told(outcome, '2026-11-01', p50, null)).sentence);
    expect(small('2026-11-28')).toBe(false);
    expect(small('2026-11-27')).toBe(true);
    expect(small('2026-10-01', 'already-outgrown')).toBe(true);
    expect(sentences(false).join(' ')).not.toMatch(/children like yours/i);
  });

  it('names no month of which it is not true', () => {
    // 10 % by the 13th of December: it still fits in early December; half by the 3rd says nothing of December.
    const answer = deviceAnswer(en, afo, 'none', {
      ...told('forecast', '2027-12-13', '2028-01-03', '2028-03-05'),
    });
    expect(answer.sentence).toMatch(/until about early December 2027/);
    expect(answer.meaning).toMatch(/still fits in early December 2027/);
    expect(answer.meaning).toMatch(/too small by the middle of March 2028/);
    const near = deviceAnswer(en, afo, 'none', told('forecast', '2026-12-03', '2027-01-03', null));
    expect(near.meaning).not.toMatch(/December/);
  });
});

describe('thirds of a month', () => {
  const start = ({ third, month }: MonthThird) =>
    `${month}-${{ early: '01', middle: '11', late: '21' }[third]}`;
  it('the last third before a day is over by it, the first after has not begun before it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4000 }), (n) => {
        const day = addDaysIso('2024-01-01', n);
        const before = lastThirdBefore(day);
        const after = firstThirdAfter(day);
        expect(start(after) >= day).toBe(true);
        // Its last day is at most this day: the day after belongs to a later third than the one named.
        expect(start(thirdOf(addDaysIso(day, 1))) > start(before)).toBe(true);
        expect(start(before) <= day).toBe(true);
      }),
    );
  });

  // A letter that says 'will be too small' of what has been so for months keeps a family at home.
  it('writes of a device beyond use as of one that may be too small now, in every language', () => {
    for (const { language } of familyLanguages.filter((l) => l.language !== 'en')) {
      const words = familyWords(language);
      const cast = (beyondUseSince: string | null, action = 'cast') =>
        letterReason(
          words,
          {
            action,
            reason: { code: 'cast-by-passed', text: 'English' },
            devices: [{ family: 'solid-afo', side: 'left', beyondUseSince }],
          } as unknown as Parameters<typeof letterReason>[1],
          rules,
        );
      for (const action of ['cast', 'check'])
        expect(cast('2026-06-01', action)).toBe(words.mayBeSmall(words.device(afo)));
      expect(cast(null)).toBe(words.letterWhy.cast);
    }
  });
});

// Days 1-10, 11-20 and the rest, as month-thirds.ts states: a clinic's own way of being no finer than a forecast is.
it('names only thirds of a month of which all days keep what is said', () => {
  const named = ({ third, month }: { third: string; month: string }) => `${third} ${month}`;
  const over = (date: string) => named(lastThirdBefore(date));
  expect(over('2026-12-13')).toBe('early 2026-12');
  expect([over('2026-12-10'), over('2026-12-20'), over('2026-12-31')]).toEqual([
    'early 2026-12',
    'middle 2026-12',
    'late 2026-12',
  ]);
  expect([over('2026-12-09'), over('2026-12-30')]).toEqual(['late 2026-11', 'middle 2026-12']);
  const begins = (date: string) => named(firstThirdAfter(date));
  expect([begins('2026-12-01'), begins('2026-12-02'), begins('2026-12-11')]).toEqual([
    'early 2026-12',
    'middle 2026-12',
    'middle 2026-12',
  ]);
  expect([begins('2026-12-12'), begins('2026-12-21'), begins('2026-12-22')]).toEqual([
    'late 2026-12',
    'late 2026-12',
    'early 2027-01',
  ]);
});

it('a letter asks to stop wearing the device that must be seen, and no other', () => {
  const device = (side: 'left' | 'right', action: 'see-now' | 'review') =>
    ({ family: 'solid-afo', side, action, beyondUseSince: null }) as never;
  const visit = {
    action: 'see-now' as const,
    reason: { code: 'red-flag' as const, numbers: { flag: 'finding-skin-open-d1' } },
    devices: [device('left', 'see-now'), device('right', 'review')],
  };
  const said = letterReason(familyWords('es'), visit, rules);
  expect(said).toContain('izquierda');
  expect(said).not.toContain('derecha');
});

it('a device of which no rule is known is told of as one on a limb: it comes off where the skin is not well', () => {
  const own = wornDevice({ family: 'made-here', side: 'left' }, rules);
  expect(own.region).toBe('ankle-foot');
  expect(familyWords('en').wanted('see-now', own, 'skin')).toMatch(/^Stop wearing/);
});
