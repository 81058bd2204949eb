import type { MutationGroup } from '../mutation.js';

const notes = ['tests/forecast/notes/read-note.test.ts'];
const tables = ['tests/exchange/awkward-tables.test.ts', 'tests/exchange/sheets/sheets.test.ts'];
const history = [
  'tests/records/device-history.test.ts',
  'tests/forecast/verdicts.test.ts',
  'tests/forecast/safe-forecast.test.ts',
  'tests/recall/safe-list.test.ts',
];

/** What was written of a child, and how it is read. */
export const records: readonly MutationGroup[] = [
  {
    harm: 'what a clinic wrote of the skin beside its figures reaches no list',
    file: 'src/exchange/sheets/devices/remark-rows.ts',
    tests: ['tests/exchange/sheets/sheets.test.ts'],
    changes: [
      ['const text = ofSkin ?', 'const text = false ?'],
      [
        "if (kind === 'keep' && readNote(text).findings.length === 0) return [];",
        "if (kind === 'keep') return [];",
      ],
      [
        'worn.filter((d) => d.cells.side === side || !isSided(d))',
        'worn.filter((d) => d.cells.side !== side)',
      ],
      ['      unheard.push(text);\n', '      text.trim();\n'],
      ['const device of meant.length > 0 ? meant : worn', 'const device of meant.slice(1)'],
    ],
  },
  {
    harm: 'a remark goes to a device of later, or to one that had ended',
    file: 'src/exchange/sheets/devices/device-register.ts',
    tests: ['tests/exchange/sheets/sheets.test.ts'],
    changes: [
      ["cast <= day && cast >= (last.get(place)?.cells.cast_date ?? '')", 'true'],
      ["d.ended === undefined ? d.cells.status !== 'retired' : day <= d.ended", 'true'],
    ],
  },
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/silenced-terms.ts',
    tests: notes,
    changes: [
      ['.test(between) && (list || distance', '.test(between) && false && (list || distance'],
      ['(list || distance <= 5)', '(list || distance <= 15)'],
      ['!(doubled && doubled.end >= cue.end)', 'true'],
      ['return ANSWERED_NO.test(after) || has(anchored(patterns.negatedAfter), after);', 'return false;'],
      ['!has(patterns.negationEnds, between) &&', ''],
      ["if (has(patterns.history, rest.replace(UNTIL_NOW, ' ')) &&", 'if (false &&'],
      ['isOld(clause, term) && !has(patterns.returns, back)', 'isOld(clause, term)'],
      ["after) ? 'others' : null", 'after) ? null : null'],
      ['return isResolved(rest, ofTheDevice(term.kind)) && term.kind', 'return term.kind'],
      [
        'DONE_TO_PREVENT.test(before) || fromElsewhere(before, term, after)',
        'fromElsewhere(before, term, after)',
      ],
      ['DONE_TO_PREVENT.test(before) || fromElsewhere(before, term, after)', 'DONE_TO_PREVENT.test(before)'],
      ["!has(patterns.device, kind === 'pain' ? after : after.slice(0, m.index)) &&", ''],
      ['OF_THE_STATE.includes(kind) && has', 'has'],
      ['HAS_STOPPED.test(after))', 'false)'],
      ['!has(patterns.almostResolved, text) &&', ''],
    ],
  },
  {
    harm: 'what lasts, or is not mended, is taken for well',
    file: 'src/forecast/flags/notes/amend-finding.ts',
    tests: notes,
    changes: [
      ['isMark(current) && UNBROKEN.test(clause)', 'false'],
      ['if (longer && (minutes ?? 0) < current.minutes!) return current;', ''],
      ['!GOES_ON.test(clause.slice(end)) &&', ''],
    ],
  },
  {
    harm: 'what lasts, or is not mended, is taken for well',
    file: 'src/forecast/flags/notes/well-now.ts',
    tests: notes,
    changes: [
      ['!YET_TO_BE_DONE.test(text.slice(0, at)) &&', ''],
      ['|| NOT_WELL.test(clause)', ''],
      ['!BODGED.test(text) &&', ''],
    ],
  },
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/mark-kind.ts',
    tests: notes,
    changes: [
      ['minutes > FADES_WITHIN_MINUTES', 'minutes > 2 * FADES_WITHIN_MINUTES'],
      ["if (has(patterns.still, clause)) return 'skin-mark';", ''],
      ['SLOWLY, SINCE_A_DAY]', 'SLOWLY]'],
    ],
  },
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/read-note.ts',
    tests: notes,
    changes: [
      [
        'blanked(blanked(written, patterns.notFindings), ASKED_AND_DENIED)',
        'blanked(written, patterns.notFindings)',
      ],
      ["year !== null && Number(y) < year ? 'years ago' : y", 'y'],
      ['of changedNumbers(text, region))', 'of [] as ReturnType<typeof changedNumbers>)'],
      ['terms = unclearIn(clause.text)', 'terms = []'],
      ["{ ...t, kind: 'hip-out' }", 't'],
      ["ofSkin ? { ...t, kind: 'skin-open' } : t", 't'],
      ['HURT_IN_A_FALL.test(t.text) && A_FALL', 'A_FALL'],
    ],
  },
  {
    harm: 'a figure that has become worse is passed over',
    file: 'src/forecast/flags/notes/changed-numbers.ts',
    tests: notes,
    changes: [
      ["(worse === 'more' ? risen.by : -risen.by) >= least", 'risen.by >= least'],
      ['(?:to|now|today)', '(?:to)'],
    ],
  },
  {
    harm: 'a wound of the left is looked for on the right',
    file: 'src/forecast/flags/notes/place-and-side.ts',
    tests: notes,
    changes: [
      [
        "if (left === right) return null;\n  return left ? 'left' : 'right'",
        "return left ? 'right' : 'left'",
      ],
    ],
  },
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/durations.ts',
    tests: notes,
    changes: [
      ['stunden|std|heure|heures|hora|horas)$/, 60]', 'stunden|std|heure|heures|hora|horas)$/, 1]'],
      ['Math.max(...found)', 'Math.min(...found)'],
      ['NOT_A_SPAN.test(after) ||', ''],
    ],
  },
  {
    harm: 'redness that lasts is taken for one that fades',
    file: 'src/records/skin-check.ts',
    tests: ['tests/forecast/findings.test.ts', 'tests/records/check.test.ts', ...notes],
    changes: [
      ['FADES_WITHIN_MINUTES = 20', 'FADES_WITHIN_MINUTES = 60'],
      ['minutes > FADES_WITHIN_MINUTES,', 'minutes > 0,'],
    ],
  },
  {
    harm: 'a size is read in the wrong unit',
    file: 'src/records/units.ts',
    tests: ['tests/records/units.test.ts'],
    changes: [
      ['inch: 25.4', 'inch: 25'],
      ['g: 0.001, lb: 0.45359237', 'g: 0.001, lb: 0.5'],
      ['cm: 10, m', 'cm: 1, m'],
    ],
  },
  {
    harm: 'a size is read in the wrong unit',
    file: 'src/exchange/csv/read-size.ts',
    tests: tables,
    changes: [
      ['if (other !== undefined)', 'if (false)'],
      ['if (words.length === 0)', 'if (false)'],
      ['if (!(size >= plausible[0] && size <= plausible[1]))', 'if (false)'],
      ["if (isLengthUnit(unit) !== (base === 'mm'))", 'if (false)'],
    ],
  },
  {
    harm: 'a size is ten or a thousand times what was written',
    file: 'src/exchange/csv/read-number.ts',
    tests: tables,
    changes: [
      ["comma > point ? '.' : ','", "comma < point ? '.' : ','"],
      ["digits = digits.replace(',', '.');", "digits = digits.replace(',', '');"],
      ['if (!new RegExp(', 'if (false && !new RegExp('],
    ],
  },
  {
    harm: 'a day is read as a month, or in the wrong century',
    file: 'src/exchange/sheets/cell-date.ts',
    tests: tables,
    changes: [
      ['return both(iso(year(y), b, a), iso(year(y), a, b));', 'return same(iso(year(y), b, a));'],
      ['century + two > Number(today.slice(0, 4)) ?', 'false ?'],
      ['(weeks * 7) / 365.25', '(weeks * 30) / 365.25'],
      ['\\/12$/, (months) => months / 12]', '\\/12$/, (months) => months]'],
    ],
  },
  {
    harm: 'spina bifida in a sheet brings no caution, or a thoracic one counts as sacral',
    file: 'src/exchange/sheets/cell-diagnosis.ts',
    tests: ['tests/exchange/sheets/sheets.test.ts'],
    changes: [
      ['spinaBifida = true;', ''],
      ['if (HIGH_LEVELS.test(', 'if (!HIGH_LEVELS.test('],
      ['phrase.every((word, i) => isMeant(words[i], word))', 'false'],
      ['if (WORDS.has(said) || NOT_A_SLIP.has(said) ||', 'if ('],
      ['for (const word of left) side = sideFrom(word, side);', ''],
    ],
  },
  {
    harm: 'a day of what is to come counts as known',
    file: 'src/forecast/record-until.ts',
    tests: ['tests/forecast/assess-child.test.ts', 'tests/forecast/safe-forecast.test.ts'],
    changes: [
      ['rows.filter((r) => r.date <= today)', '[...rows]'],
      ['d.castDate <= today', 'true'],
    ],
  },
  {
    harm: 'what happened to a device is read wrong',
    file: 'src/records/device-history.ts',
    tests: history,
    changes: [
      ["last.verdict === 'outgrown'", "last.verdict === 'tight'"],
      ['|| e.verdict !== null)', "|| e.verdict === 'outgrown')"],
      ["else if (kind === 'broken')", "else if (kind === 'lost')"],
      ["else if (kind === 'lost') now = { ...now, lostOn: date };", ''],
      [
        'Number(a.date > b.date) - Number(a.date < b.date)',
        'Number(a.date < b.date) - Number(a.date > b.date)',
      ],
      ['e.date >= worn.castDate && (e.kind', '(e.kind'],
    ],
  },
  {
    harm: 'every date is a day off, or a year a different length',
    file: 'src/records/dates.ts',
    tests: ['tests/records/age.test.ts', ...history],
    changes: [
      ['isoDate(dayNumber(date) + days)', 'isoDate(dayNumber(date) - days)'],
      ['dayNumber(to) - dayNumber(from)', 'dayNumber(from) - dayNumber(to)'],
      ['DAYS_A_YEAR = 365.25', 'DAYS_A_YEAR = 360'],
      ['&& isValid(parseISO(text))', ''],
    ],
  },
];
