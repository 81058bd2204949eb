import type { MutationGroup } from '../mutation.js';

export const forecastNotes: readonly MutationGroup[] = [
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/past-terms.ts',
    tests: ['tests/forecast/notes/read-note.test.ts'],
    changes: [
      ["if (has(patterns.history, rest.replace(UNTIL_NOW, ' ')) &&", 'if (false &&'],
      ['isOld(clause, term) && !has(patterns.returns, back)', 'isOld(clause, term)'],
      ['return isResolved(rest, isOfDevice(term.kind)) && term.kind', 'return term.kind'],
      ['!has(patterns.almostResolved, text) &&', ''],
    ],
  },
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/from-elsewhere.ts',
    tests: ['tests/forecast/notes/read-note.test.ts'],
    changes: [
      ['&& !has(patterns.device, after))', ')'],
      ["!has(patterns.device, kind === 'pain' ? after : after.slice(0, m.index)) &&", ''],
      ["(kind === 'skin-open' && ON_CLOTHES.test(after.trim()))", 'false'],
    ],
  },
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/terms-of-clause.ts',
    tests: [
      'tests/forecast/findings.test.ts',
      'tests/forecast/notes/read-note.test.ts',
      'tests/forecast/notes/unseen-writer.test.ts',
    ],
    changes: [
      ["{ ...t, kind: 'hip-out' }", 't'],
      ["ofSkin ? { ...t, kind: 'skin-open' } : t", 't'],
      ['...unfelt(clause, said)', ''],
      ['SKIN_BY_A_PART.test(clause.slice(0, t.end)) ||', ''],
      ['HURT_IN_A_FALL.test(t.text) && A_FALL', 'A_FALL'],
    ],
  },
  {
    harm: 'what lasts, or is not mended, is taken for well',
    file: 'src/forecast/flags/notes/amend-finding.ts',
    tests: ['tests/forecast/notes/read-note.test.ts'],
    changes: [
      ['KEEPS_SKIN_WHOLE.includes(kind) && UNBROKEN.test(clause)', 'false'],
      ['&& !isOfTheOther(current, clause)', ''],
      ["(kind !== 'broken' || !FOUND.test(clause) || MISSED.test(words)) &&", ''],
      ['if (longer && (minutes ?? 0) < current.minutes!) return current;', ''],
      ['!GOES_ON.test(clause.slice(end)) &&', ''],
    ],
  },
  {
    harm: 'a figure that has become worse is passed over',
    file: 'src/forecast/flags/notes/changed-numbers.ts',
    tests: ['tests/forecast/notes/read-note.test.ts'],
    changes: [
      ["(worse === 'more' ? risen.by : -risen.by) >= least", 'risen.by >= least'],
      ['(?:to|now|today|is)', '(?:to)'],
    ],
  },
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/durations.ts',
    tests: ['tests/forecast/notes/read-note.test.ts'],
    changes: [
      ['stunden|std|heure|heures|hora|horas)$/, 60]', 'stunden|std|heure|heures|hora|horas)$/, 1]'],
      ['Math.max(...found)', 'Math.min(...found)'],
      ['NOT_A_SPAN.test(after) ||', ''],
    ],
  },
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/mark-kind.ts',
    tests: ['tests/forecast/notes/read-note.test.ts'],
    changes: [
      ['minutes > FADES_WITHIN_MINUTES', 'minutes > 2 * FADES_WITHIN_MINUTES'],
      ["if (has(patterns.still, clause)) return 'skin-mark';", ''],
      ['SLOWLY, SINCE_A_DAY]', 'SLOWLY]'],
    ],
  },
  {
    harm: 'a cheerful note hides what cannot wait, or a note to act on is passed over',
    file: 'src/forecast/flags/notes/note-odds.ts',
    tests: ['tests/forecast/notes/unseen-writer.test.ts'],
    changes: [
      ['words.length < FEWEST_WORDS ||', ''],
      ['|| known.length < KNOWN_SHARE * words.length', ''],
    ],
  },
  {
    harm: 'a wound of the left is looked for on the right',
    file: 'src/forecast/flags/notes/place-and-side.ts',
    tests: ['tests/forecast/notes/read-note.test.ts'],
    changes: [
      [
        "if (left === right) return null;\n  return left ? 'left' : 'right'",
        "return left ? 'right' : 'left'",
      ],
    ],
  },
  {
    harm: [
      'a cheerful note hides what cannot wait, or a note to act on is passed over',
      'a note of a wound is read as none, or none as a wound',
    ],
    file: 'src/forecast/flags/notes/read-note.ts',
    tests: [
      'tests/forecast/notes/unseen-writer.test.ts',
      'tests/forecast/findings.test.ts',
      'tests/forecast/notes/read-note.test.ts',
    ],
    changes: [
      ['HARM_ABOVE = 1.5;', 'HARM_ABOVE = 15;'],
      ['HARM_AFTER_ALL = 6;', 'HARM_AFTER_ALL = 60;'],
      ['HARMLESS_BELOW = -1.25;', 'HARMLESS_BELOW = -10;'],
      ['HARMLESS_BELOW = -1.25;', 'HARMLESS_BELOW = 3;'],
      ["severityOf[kind] !== 'look' ||", ''],
      ["kind === 'treatment-planned' ||", ''],
      ['PAST_AN_END.test(words) ||', ''],
      ['NAMED_ABOVE = -1;', 'NAMED_ABOVE = 15;'],
      ['EVEN = 0;', 'EVEN = -9;'],
      ['(ONLY_ON[kind] ?? region) === region', 'true'],
      ["found.some((f) => f.kind !== 'unclear')", 'false'],
      ['daysBefore !== undefined,', 'false,'],
      [
        'blanked(blanked(written, patterns.notFindings), ASKED_AND_DENIED)',
        'blanked(written, patterns.notFindings)',
      ],
      ["year !== null && Number(y) < year ? 'years ago' : y", 'y'],
      ['changedNumbers(text, region)', '([] as ReturnType<typeof changedNumbers>)'],
      ['terms = unclearIn(clause.text)', 'terms = []'],
      ['&& !STATES.test(clause)', ''],
    ],
  },
  {
    harm: 'a note of a wound is read as none, or none as a wound',
    file: 'src/forecast/flags/notes/silenced-terms.ts',
    tests: ['tests/forecast/notes/read-note.test.ts'],
    changes: [
      ['.test(between) && distance <= 5', '.test(between) && distance <= -1'],
      ['distance <= 5', 'distance <= 15'],
      ['!(doubled && doubled.end >= cue.end)', 'true'],
      ['ANSWERED_NO.test(after) ||', ''],
      ['|| has(anchored(patterns.negatedAfter), after)', ''],
      ['!has(patterns.negationEnds, between) &&', ''],
      ["after) ? 'others' : null", 'after) ? null : null'],
      ['fromElsewhere(before, term, after) ||', ''],
      ['OF_THE_STATE.includes(term.kind) && has', 'has'],
      ['HAS_STOPPED.test(after))', 'false)'],
      ['!OF_WHAT_IS_SEEN.test(before + term.text) &&', ''],
      ['!AND_IT_IS.test(after) &&', ''],
    ],
  },
  {
    harm: 'what lasts, or is not mended, is taken for well',
    file: 'src/forecast/flags/notes/well-now.ts',
    tests: ['tests/forecast/notes/read-note.test.ts'],
    changes: [
      ['!YET_TO_BE_DONE.test(text.slice(0, at)) &&', ''],
      ['|| NOT_WELL.test(clause)', ''],
      ['!BODGED.test(text) &&', ''],
      ['!TIME_AND_AGAIN.test(text.slice(at))', 'true'],
    ],
  },
];
