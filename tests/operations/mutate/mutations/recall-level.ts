import type { MutationGroup } from '../mutation.js';

const planRequests = [
  'tests/recall/plan-requests.test.ts',
  'tests/recall/safe-list.test.ts',
  'tests/recall/plan-details.test.ts',
  'tests/recall/level-recall-list.test.ts',
  'tests/recall/level-plan.test.ts',
];

export const recallLevel: readonly MutationGroup[] = [
  {
    harm: 'A cast costs nothing for being late',
    file: 'src/recall/level/cast-costs.ts',
    tests: planRequests,
    changes: [
      ['dayNumber(day) + wait + fitWaitDays', 'dayNumber(day) + fitWaitDays'],
      ['dayNumber(day) + wait + fitWaitDays', 'dayNumber(day) + wait'],
      ['chance.lastDay - fitted - (whole - before)', 'chance.lastDay - fitted'],
    ],
  },
  {
    harm: 'A child is planned into a week in which the clinic is shut',
    file: 'src/recall/level/clinic-capacity.ts',
    tests: [
      'tests/recall/level-plan.test.ts',
      'tests/recall/next-places.test.ts',
      'tests/recall/level-recall-list.test.ts',
    ],
    changes: [
      ['addDaysIso(monday, day.weekday - 1)', 'addDaysIso(monday, day.weekday)'],
      ['const closed = [...clinic.clinicClosures, ...c.away];', 'const closed = [...clinic.clinicClosures];'],
      ['date > from && !within(closed, date)) {', '!within(closed, date)) {'],
      ['days.weekdays[days.weekdays.length - 1] - 1', '4'],
    ],
  },
  {
    harm: 'a day on which the clinic is shut counts as one of its own, or one of its own as shut',
    file: 'src/recall/level/clinic-week.ts',
    tests: [
      'tests/recall/next-places.test.ts',
      'tests/recall/carry-over.test.ts',
      'tests/recall/plan-details.test.ts',
      'tests/exchange/other-formats.test.ts',
    ],
    changes: [
      ['dayNumber(weekStart(day)) + 1', 'dayNumber(weekStart(day))'],
      ['&& !within(clinicClosures, day)', ''],
      ['casts(d) || isOffice(d)', 'isOffice(d)'],
      ['!(weekday === FRIDAY && casts(SUNDAY))', 'true'],
      ['d.weekday === weekday && d.slots > 0)', 'd.slots > 0)'],
      ['addDaysIso(monday, d - 1)', 'addDaysIso(monday, d)'],
      ['within(clinicClosures, day) ||', ''],
      ['c.id === clinician', 'c.id !== clinician'],
    ],
  },
  {
    harm: 'one visit made of two is planned for the later of them, or loses the skin that cannot warn',
    file: 'src/recall/level/combine-requests.ts',
    tests: ['tests/recall/combine-requests.test.ts', 'tests/recall/plan-requests.test.ts'],
    changes: [
      ['inTime(r, r) && !inTime(r, merged)', 'false'],
      [
        'latestSafe: parts.map((p) => p.latestSafe).sort()[0]',
        'latestSafe: parts.map((p) => p.latestSafe).sort().at(-1)!',
      ],
      ['parts.some((p) => p.insensateSkin)', 'parts.every((p) => p.insensateSkin)'],
      ["parts.some((p) => p.action === 'cast')", "parts.every((p) => p.action === 'cast')"],
    ],
  },
  {
    harm: 'a planning that fails takes the list with it; a family that is booked falls off it',
    file: 'src/recall/level/level-recall-list.ts',
    tests: ['tests/recall/level-recall-list.test.ts'],
    changes: [
      ['    options.failed?.(error);', '    throw error;'],
      ['notLevelled: NOT_LEVELLED', ''],
      ['entries: [...list.entries, ...booked]', 'entries: [...list.entries]'],
    ],
  },
  {
    harm: 'among those who come too late, skin that cannot warn is not named first',
    file: 'src/recall/level/explain-plan.ts',
    tests: ['tests/recall/level-plan.test.ts'],
    changes: [['Number(b.insensateSkin) - Number(a.insensateSkin) ||', '']],
  },
  {
    harm: 'whoever must be seen now is offered a day on which nobody casts; a family is not rung again',
    file: 'src/recall/level/next-places.ts',
    tests: ['tests/recall/next-places.test.ts'],
    changes: [
      ['NEXT_DAYS = 3', 'NEXT_DAYS = 1'],
      ['if (within(c.away, day)) return sum;', ''],
      ['Math.max(0, places - taken)', 'places'],
      ['if (within(clinicClosures, day)) return 0;', ''],
      ['weekdays.includes(weekday) ? Math', 'weekday <= 5 ? Math'],
    ],
  },
  {
    harm: 'two children are put in one place, or nobody sees that the clinic is shut',
    file: 'src/recall/level/place-in-sessions.ts',
    tests: planRequests,
    changes: [
      ['held.length < p.sessionSlots[s]', 'held.length <= p.sessionSlots[s]'],
      ['settle(i, unit, new Set()) ? 0 : 1', 'settle(i, unit, new Set()) ? 0 : 0'],
    ],
  },
  {
    harm: [
      'a child to be seen at once waits for a place in a week',
      'A visit is planned too late, or who must be seen now waits for a week',
      'A cast is made months before it is due, and the new device is outgrown as early',
    ],
    file: 'src/recall/level/plan-requests.ts',
    tests: planRequests,
    changes: [
      ["e.action !== 'see-now'", 'true'],
      ["entry.alerts.includes('skin-cannot-warn')", 'false'],
      ['context.settings.fitWaitDays,', '0,'],
      ["insensateSkin: entry.alerts.includes('skin-cannot-warn')", 'insensateSkin: false'],
      ['if (isBeingMade(device.reason.code)) return null;', ''],
      ["p.why === 'clinic-cancelled' ? [] : p.week", "p.why === 'declined' ? [] : p.week"],
      ['bookedWeek: earlier.bookedWeek,', ''],
      ['clinicianIds: known ? [own] : []', 'clinicianIds: []'],
      ['transportDays: child?.transportDays ?? []', 'transportDays: []'],
      ['waits ? device.harmPerWeek / 7 : 0', '0'],
      ['own ? dueBy : castBy', 'castBy'],
      ['CAST_WINDOW_DAYS = 28', 'CAST_WINDOW_DAYS = 112'],
    ],
  },
  {
    harm: 'A day is said to be safe that a week of work makes unsafe',
    file: 'src/recall/level/week-costs.ts',
    tests: [
      'tests/recall/level-plan.test.ts',
      'tests/recall/level-recall-list.test.ts',
      'tests/recall/combine-requests.test.ts',
      'tests/recall/plan-requests.test.ts',
      'tests/recall/next-places.test.ts',
    ],
    changes: [
      ['t.part.insensateSkin ? settings.insensateWeight : 1', '1'],
      ['settings.lateWeekCost) * late)', 'settings.lateWeekCost))'],
      ['t.part.routine ? settings.lateReviewWeekCost : settings.lateWeekCost', 'settings.lateWeekCost'],
      ['return !t.notIn.includes(monday);', 'return true;'],
      ['seenBy(t, monday, lastDay) <= t.latestSafe', 'seenBy(t, monday, 4) <= t.latestSafe'],
      ["t.part.action === 'cast' && early(t)", 'false'],
    ],
  },
  {
    harm: 'A scheduler is not told what came of the week before',
    file: 'src/recall/level/week-reason.ts',
    tests: ['tests/recall/carry-over.test.ts'],
    changes: [
      ['missed > 1', 'missed > 2'],
      ["p.why === 'did-not-come'", "p.why === 'declined'"],
      ['visit.overtime ?', 'false ?'],
      ['movedFrom && movedFrom !== last?.week', 'false'],
      ['if (visit.childIds.length > 1)', 'if (false)'],
      ['if (others > 0)', 'if (false)'],
    ],
  },
];
