import type { MutationGroup } from '../mutation.js';

export const words: readonly MutationGroup[] = [
  {
    harm: 'a family reads in its own language that what is urgent can wait, or takes off what holds the hip',
    file: 'src/words/family/languages/spanish.ts',
    tests: ['tests/words/family.test.ts'],
    name: 'when to ring, what stays on',
    changes: [
      ["No la quite hasta que se lo digamos.',\n    measure", "Quítela.',\n    measure"],
      ['no la ponga y llámenos hoy.', 'no la ponga y llámenos esta semana.'],
      ["left: 'izquierda', right: 'derecha'", "left: 'derecha', right: 'izquierda'"],
    ],
  },
  {
    harm: 'a family reads in its own language that what is urgent can wait, or takes off what holds the hip',
    file: 'src/words/family/languages/french.ts',
    tests: ['tests/words/family.test.ts'],
    name: 'when to ring, what stays on',
    changes: [
      [
        'appelez-nous aujourd’hui. Ne l’enlevez pas avant que nous vous le disions.',
        'appelez-nous aujourd’hui. Ôtez-la en attendant.',
      ],
      ['qui part en 20 minutes', 'qui part en 40 minutes'],
    ],
  },
  {
    harm: 'a family reads in its own language that what is urgent can wait, or takes off what holds the hip',
    file: 'src/words/family/languages/turkish.ts',
    tests: ['tests/words/family.test.ts'],
    name: 'when to ring, what stays on',
    changes: [
      ['Lütfen bizi şimdi arayın.', 'Lütfen bizi bu hafta arayın.'],
      [' Acımasını beklemeyin.', ''],
    ],
  },
  {
    harm: 'a family reads in its own language that what is urgent can wait, or takes off what holds the hip',
    file: 'src/words/family/languages/polish.ts',
    tests: ['tests/words/family.test.ts'],
    name: 'when to ring, what stays on',
    changes: [
      ['Proszę nie czekać, aż zaboli.', 'Proszę zadzwonić, gdy zaboli.'],
      ["left: 'lewa', right: 'prawa'", "left: 'prawa', right: 'lewa'"],
    ],
  },
  {
    harm: 'a family reads in its own language that what is urgent can wait, or takes off what holds the hip',
    file: 'src/words/family/languages/ukrainian.ts',
    tests: ['tests/words/family.test.ts'],
    name: 'when to ring, what stays on',
    changes: [
      ['якщо шкіра має поганий вигляд.', 'якщо болить.'],
      [
        'зателефонуйте нам сьогодні. Не знімайте його, доки ми не скажемо.',
        'зателефонуйте нам цього тижня. Зніміть його.',
      ],
    ],
  },
  {
    harm: 'a family reads in its own language that what is urgent can wait, or takes off what holds the hip',
    file: 'src/words/family/languages/arabic.ts',
    tests: ['tests/words/family.test.ts'],
    name: 'when to ring, what stays on',
    changes: [
      ["لا تنزعوها حتى نخبركم.',\n    stop", "انزعوها.',\n    stop"],
      ['من فضلكم اتصلوا بنا الآن.', 'من فضلكم اتصلوا بنا هذا الأسبوع.'],
    ],
  },
  {
    harm: 'a family reads a part of a month in which the brace may be too small already',
    file: 'src/words/family/month-thirds.ts',
    tests: ['tests/words/family.test.ts'],
    changes: [
      ['if (thirdOf(over).third !== third) return thirdOf(date);', ''],
      ['if (day < 21) return', 'if (day < 11) return'],
    ],
  },
  {
    harm: 'A clinician reads that a device may be left alone, or the wrong day',
    file: 'src/words/clinician-reason.ts',
    tests: [
      'tests/words/reason-sentence.test.ts',
      'tests/recall/safe-list.test.ts',
      'tests/pages/answers.test.tsx',
      'tests/pages/recall-page.test.tsx',
    ],
    changes: [
      ['castIfRoomAtMostMm} mm or less', 'castIfRoomAtMostMm} mm or more'],
      ['plainDate(figure.elseNotBefore)', "''"],
      ['A finding outranks every date: read what was seen in the record first.', 'The usual review.'],
      ['`Recorded as broken on ', '`Worn for long: '],
    ],
  },
  {
    harm: ['a family reads that a brace fits that does not', 'A family reads the wrong thing to do'],
    file: 'src/words/family/device-answer.ts',
    tests: ['tests/words', 'tests/pages', 'tests/safety'],
    changes: [
      ["if (action === 'see-now' || action === 'repair')", "if (action === 'repair')"],
      ["outcome === 'already-outgrown' ||", ''],
      ['(p50 !== null && p50 <= today)', 'false'],
      ['lastThirdBefore(p10)', 'firstThirdAfter(p10)'],
      ['if (saysNothing(forecast))', 'if (false)'],
      ["if (action === 'see-now' || action === 'repair') return only(wanted!);", ''],
    ],
  },
  {
    harm: 'a family takes a hip orthosis off, or waits with a sick child',
    file: 'src/words/family/english.ts',
    tests: ['tests/words/family.test.ts', 'tests/pages/answers.test.tsx'],
    changes: [
      [
        "hip: 'Call us today if you see this. Leave the brace on until we tell you'",
        "hip: 'Stop wearing it and call us today if you see'",
      ],
      [
        "if (region === 'hip') return `Please call us today.",
        "if (region === 'head') return `Please call us today.",
      ],
      [
        "worn.region === 'hip' ? `Leave it on until we tell you.`",
        "worn.region === 'head' ? `Leave it on until we tell you.`",
      ],
      ["'Leave the brace on. Look round the straps", "'Take the brace off. Look round the straps"],
      [
        'If your child throws up, is very sleepy or has a soft spot that bulges, go to the hospital at once.',
        'We will see you soon.',
      ],
      ["region === 'head'\n      ? 'Go to the hospital", "region === 'hip'\n      ? 'Go to the hospital"],
      ["if (why === 'head' ||", "if (why === 'skin' ||"],
      ["if (why === 'breathing')", "if (why === 'head')"],
      ["'breathing that is harder in the brace',\n", ''],
      ["'redness that is still there at the next change'", "'redness that stays longer than 20 minutes'"],
      [
        "if (region === 'trunk')\n      return 'Call for help",
        "if (region === 'knee')\n      return 'Call for help",
      ],
      ["toesInsensate: 'toes that are cold or blue'", "toesInsensate: 'toes past the end'"],
      ['Look in the morning and in the evening, every day.', 'Look now and then.'],
      ["'redness that stays longer than 20 minutes'", "'redness that stays longer than 60 minutes'"],
      [
        "marksHip: 'Are there marks on the skin around the brace? Do not take it off to look.'",
        "marksHip: 'Take the brace off. Are there marks on the skin?'",
      ],
    ],
  },
  {
    harm: 'A letter calls soon what is probably so already, or says nothing of what to do until it is seen',
    file: 'src/words/family/letter-reason.ts',
    tests: ['tests/words/family.test.ts'],
    changes: [
      ['d.action === action', 'true'],
      ['d.beyondUseSince !== null', 'd.beyondUseSince === null'],
      ["(action === 'cast' || action === 'check') &&", "(action === 'cast') &&"],
      ["action === 'see-now' || action === 'repair'", 'false'],
    ],
  },
  {
    harm: 'A family in another language is told the wrong thing to do',
    file: 'src/words/family/phrase-book.ts',
    tests: [
      'tests/words/family.test.ts',
      'tests/pages/family-page.test.tsx',
      'tests/safety/clinical-safety.test.ts',
    ],
    changes: [
      ["region === 'hip' ? p.urgent.hip : p.urgent.stop", "region === 'head' ? p.urgent.hip : p.urgent.stop"],
      ["if (why === 'breathing') return p.urgent.breathing;", ''],
      ['insensate ? p.doNotWaitInsensate : p.doNotWait', 'p.doNotWait'],
      ["region === 'head' ? p.emergency : null", 'null'],
      ["if (region === 'trunk') return p.emergencyTrunk;", ''],
      ["action === 'repair' && worn.region === 'hip'", 'false'],
      ["p.skin[SKIN_OF[region] ?? 'leg']", 'p.skin.leg'],
      ["  'wrist-hand': 'hand',\n", ''],
      ["  trunk: 'trunk',\n", ''],
    ],
  },
  {
    harm: 'a family is told to wait for pain where the skin cannot warn, or to count minutes under what stays on',
    file: 'src/words/family/signs.ts',
    tests: ['tests/words/family.test.ts', 'tests/pages/answers.test.tsx'],
    changes: [
      ['insensate ? p.swollen : p.unwell', 'p.unwell'],
      ['insensate ? [] : [p.unwell]', '[p.unwell]'],
      ['[p.skinHip, ...p.skin.slice(1)', '[...p.skin'],
      ['title: p.titles.hip', 'title: p.titles.limb'],
    ],
  },
  {
    harm: ['the wrong next step for a family', 'A family reads the wrong thing to do'],
    file: 'src/words/family/worn-device.ts',
    tests: ['tests/words', 'tests/pages', 'tests/safety'],
    changes: [
      ["region: 'ankle-foot', side", "region: 'hip', side"],
      ["flagId.startsWith('head-growth') ||", ''],
      ["|| flagId.startsWith('finding-head-warning')", ''],
      ["if (flagId.startsWith('finding-breathing')) return 'breathing'", ''],
      ["if (flagId.startsWith('finding-breathing')) return 'breathing';", ''],
      ['(skin|swelling|rash|pain)', '(skin|rash)'],
    ],
  },
  {
    harm: [
      'a family whose child feels nothing there is told to wait for pain',
      'a hip orthosis is taken off, or a helmet worn on, by what is said on the telephone',
    ],
    file: 'src/words/reason-sentence.ts',
    tests: [
      'tests/words/reason-sentence.test.ts',
      'tests/words/family.test.ts',
      'tests/pages/answers.test.tsx',
    ],
    changes: [
      ["d.reason.code === 'noted' && !isSaidTogether(d, e)", 'false'],
      ['e.dueBy !== null && e.dueBy < day ?', 'false ?'],
      ["day > today ? byDay(day) : 'as soon as we can'", 'byDay(day)'],
      ['ring: skinCannotWarn ? LOOK : RING', 'ring: RING'],
      ["trouble: skinCannotWarn ? 'a mark", "trouble: !skinCannotWarn ? 'a mark"],
      ["?.region === 'hip'", "?.region === 'knee'"],
      ["if (why === 'head')", "if (why === 'skin')"],
      ["if (why === 'breathing')", 'if (false)'],
      ['return `please stop wearing', 'return `please go on wearing'],
    ],
  },
];
