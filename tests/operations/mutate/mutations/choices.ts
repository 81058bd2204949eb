import type { MutationGroup } from '../mutation.js';

const list = [
  'tests/recall/safe-list.test.ts',
  'tests/recall/dates.test.ts',
  'tests/recall/build-recall-list.test.ts',
  'tests/recall/device-facts.test.ts',
  'tests/recall/choices.test.ts',
];

export const choices: readonly MutationGroup[] = [
  {
    harm: 'A child is cast, looked at or left alone where another answer was right.',
    file: 'src/recall/decide/choose-action.ts',
    tests: list,
    changes: [
      ["f.severity === 'act-now' &&", ''],
      [
        "said.kind === 'lost' ? 'lost' : 'broken', { on: said.date }",
        "said.kind === 'broken' ? 'lost' : 'broken', { on: said.date }",
      ],
      ['if (!successor.linked && beyondUseSince === null', 'if (beyondUseSince === null'],
      ['? reviewBy < today', '? false'],
      ['castBy > until) &&', 'castBy < until) &&'],
      ['addDaysIso(castBy, Math.ceil(waitDays)) < today || evenCastBy <= today', 'evenCastBy <= today'],
      ['(1 - PLAIN) * harm', '(1 - PLAIN)'],
      ['facts.reviewBy <= facts.lookBy &&', ''],
      ['!isPlain(facts) &&\n', ''],
      [
        "return said?.verdict === 'good' || said?.verdict === 'loose' ? said.date : '';",
        "return said ? said.date : '';",
      ],
      ["(date === fits && kind === 'treatment-planned')", 'false'],
      ['(chanceToday ?? 0) > accepted\n', '(chanceToday ?? 0) > 1\n'],
      ['if (looked >= addDaysIso(end, -LIFE_LOOK_DAYS)) return null;', "if (looked !== '') return null;"],
      [
        'if (!end || end > until || record.child.palliative) return null;',
        'if (!end || end > until) return null;',
      ],
      ['if (part && (spent || part.by <= step.by))', 'if (part && part.by <= step.by)'],
      ["castBy < today ? 'cast-late' : 'cast-due'", "castBy > today ? 'cast-late' : 'cast-due'"],
      ["!(said && said.verdict !== 'outgrown' && said.date >= plainRoom.date)", 'true'],
    ],
  },
  {
    harm: 'The days and chances that a device is decided by are wrong.',
    file: 'src/recall/decide/decide-device.ts',
    tests: list,
    changes: [
      [
        'const past = facts.castBy !== null && facts.castBy < today && facts.beyondUseSince === null;',
        'const past = facts.castBy !== null && facts.castBy < today;',
      ],
      ['half !== null && half <= today', 'half !== null && half < today'],
      ['const LOOK = 1.5;', 'const LOOK = 1;'],
      [
        'needed(chance, forecast, accepted, visit, every + wait)',
        'needed(chance, forecast, accepted, visit, every)',
      ],
      ['from > today ? from : null', 'from < today ? from : null'],
      ['adjust && adjust.by > today && adjust.by < usual ? adjust.by : usual', 'usual'],
      ['const visit = cast === null || cast < today ? today : cast;', 'const visit = cast ?? today;'],
    ],
  },
  {
    harm: 'The millimetres that decide at the bench are too few or too many.',
    file: 'src/recall/decide/check-figure.ts',
    tests: list,
    changes: [
      ['normalQuantile(1 - accepted) * share', 'normalQuantile(accepted) * share'],
      ['(reviewDays + waitDays)) / YEAR', 'reviewDays) / YEAR'],
      ['Math.max(LEAST_MM, Math.ceil(growth - 1e-9))', 'Math.max(LEAST_MM, Math.floor(growth))'],
      ['Math.min(1, room.paceSdMmAYear / room.paceMmAYear)', '1'],
    ],
  },
  {
    harm: 'A strap or bar is set too little, too much, or not when it is due.',
    file: 'src/recall/decide/adjust-step.ts',
    tests: list,
    changes: [
      ['Math.ceil(wanted / stepMm)', 'Math.floor(wanted / stepMm)'],
      ['2 * reviewDays', 'reviewDays'],
      ['(room.extensionLeftMm ?? 0) : 0', '0 : 0'],
      ['Math.floor(left / stepMm)', 'Math.ceil(left / stepMm)'],
    ],
  },
  {
    harm: 'A strap or bar is set too little, too much, or not when it is due.',
    file: 'src/recall/decide/adjust-by-readings.ts',
    tests: [...list, 'tests/rules/adjustments.test.ts'],
    changes: [
      ['if (roomMm > least || !way) continue;', 'if (roomMm > -least || !way) continue;'],
      [': Math.min(Math.floor(leftMm), wantedMm)', ': Math.max(Math.floor(leftMm), wantedMm)'],
    ],
  },
  {
    harm: 'What a reviewer found tight and nobody has eased is forgotten.',
    file: 'src/recall/decide/adjust-by-readings.ts',
    tests: ['tests/recall/practitioner-cases.test.ts'],
    changes: [
      ["said?.verdict !== 'tight'", "said?.verdict !== 'loose'"],
      ['e.date >= said.date', 'e.date > said.date'],
      ["[null, 'none', series.side].includes(said.side)", 'true'],
    ],
  },
  {
    harm: 'What two readings leave is misread.',
    file: 'src/recall/decide/room-by-readings.ts',
    tests: list,
    changes: [
      ['(late.value - atCast.value) - grownSince', '(late.value - atCast.value)'],
      ['distance(atCast) > NEAR_DAYS', 'false'],
      ['daysBetween(late.date, today) > NEAR_DAYS ? null', 'false ? null'],
      ['all.filter((m) => m.side === side)', 'all.filter((m) => m.side !== side)'],
    ],
  },
  {
    harm: 'A device on its way is forgotten, or one that is not hides a child.',
    file: 'src/recall/decide/replacement-in-progress.ts',
    tests: [...list, 'tests/turnaround'],
    changes: [
      ['d.castDate >= worn.castDate &&', ''],
      ['sidesOverlap(d.side, worn.side),\n', 'true,\n'],
      ["j.status === 'in-progress' &&", ''],
      ['regionOf(d.family, rules) === regionOf(worn.family, rules) &&', ''],
    ],
  },
  {
    harm: 'A device on its way is forgotten, or one that is not hides a child.',
    file: 'src/recall/decide/replacement-status.ts',
    tests: [...list, 'tests/turnaround'],
    changes: [
      ['.filter((d) => d > waited)', '.filter((d) => d > 0)'],
      ['late: lost || (risk', 'late: (risk'],
      ['replacement.job?.stages.cast ?? replacement.device.castDate', 'replacement.device.castDate'],
    ],
  },
  {
    harm: 'A telephone call counts as a visit, and the review falls late.',
    file: 'src/recall/decide/last-seen.ts',
    tests: list,
    changes: [
      [".filter((m) => m.method !== 'parent')", ''],
      ["e.kind !== 'broken' && e.kind !== 'lost'", 'true'],
      ['].filter((d) => d <= today)', ']'],
    ],
  },
  {
    harm: 'Devices of one visit are told apart or together wrongly.',
    file: 'src/recall/decide/visit-of.ts',
    tests: list,
    changes: [
      ['casts.map((d) => d.castBy)', 'casts.map((d) => d.reviewBy)'],
      ['dueBy !== null && dueBy < today,', 'dueBy !== null && dueBy <= today,'],
      ["d.action === 'cast' || d.action === 'check'", "d.action === 'cast'"],
    ],
  },
  {
    harm: 'A part is ordered too late.',
    file: 'src/recall/decide/part-due.ts',
    tests: list,
    changes: [
      ['-Math.ceil(wait)', '0'],
      ['dueByChance(p.days, accepted)', 'dueByChance(p.days, 0.9)'],
    ],
  },
  {
    harm: 'Skin that cannot warn is looked at too seldom.',
    file: 'src/recall/decide/review-by.ts',
    tests: list,
    changes: [
      ['palliative ? !insensateSkin : harmADay', 'palliative ? true : harmADay'],
      ['insensateSkin ? INSENSATE_DAYS : USUAL_DAYS', 'USUAL_DAYS'],
    ],
  },
];
