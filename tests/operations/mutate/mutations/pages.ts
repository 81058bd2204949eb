import type { MutationGroup } from '../mutation.js';

export const pages: readonly MutationGroup[] = [
  {
    harm: 'a slip of the pen is kept as a size without a question, or of a day to come',
    file: 'src/pages/child/read-visit.ts',
    tests: ['tests/pages/visit.test.tsx'],
    changes: [
      ['CONFIRM_BEYOND_SD = 3', 'CONFIRM_BEYOND_SD = 30'],
      ['const EXCHANGED = 3', 'const EXCHANGED = 3000'],
      ['value < plausible[0] || value > plausible[1]', 'value < 0'],
      ['date < birthDate || date > today', 'date < birthDate'],
    ],
  },
  {
    harm: 'A page hides what must be acted on now',
    file: 'src/pages/child/child-cautions.tsx',
    tests: ['tests/pages/answers.test.tsx', 'tests/pages/family-page.test.tsx'],
    changes: [
      ['Math.max(SHOWN, urgent)', 'SHOWN'],
      ['severities[a.severity].rank - severities[b.severity].rank', '0'],
      ['{caution} <strong>', '<strong>'],
    ],
  },
  {
    harm: 'A page calls a device fitting that is outgrown',
    file: 'src/pages/child/outgrown-text.ts',
    tests: ['tests/pages/answers.test.tsx', 'tests/pages/family-page.test.tsx'],
    changes: [
      ["if (f.outcome === 'already-outgrown') return 'alert';", ''],
      ["if (isUnknown(f)) return 'due';", ''],
      ['if (!f.p90) return', 'if (f.p90) return'],
    ],
  },
  {
    harm: 'an adjustment is kept in the first dimension of the list, which nobody chose',
    file: 'src/pages/child/device-page.tsx',
    tests: ['tests/service/page-forms.test.ts'],
    name: 'proposes no dimension',
    changes: [
      ["...(chosen ? [] : [['', whole || 'choose'] as const]),", "...(whole ? [['', whole] as const] : []),"],
      ['required={!whole}', ''],
    ],
  },
  {
    harm: 'what was typed of a call is lost, or stands in another family’s row',
    file: 'src/pages/recall/recall-call.tsx',
    tests: ['tests/service/replanning.test.ts'],
    name: 'keeps what was agreed',
    changes: [
      ['value={typed?.note}', ''],
      ['props.refused?.entry === row.id ? props.refused : null', 'props.refused'],
    ],
  },
  {
    harm: 'a given password, a guessable one, or a session left open is enough',
    file: 'src/pages/child/record-routes.tsx',
    tests: ['tests/service/doors.test.ts'],
    changes: [
      ["      await passwordAgain(request, deps, body.password ?? '', 'to erase a record');\n", ''],
      ['if (body.number?.trim() !== id)', 'if (false)'],
    ],
  },
  {
    harm: 'whoever meets the child is not told',
    file: 'src/pages/child/visit-devices.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [['const alerts = alertsOf({ child });', 'const alerts: Alert[] = [];']],
  },
  {
    harm: 'whoever meets the child is not told',
    file: 'src/pages/child/visit-page.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [['<ChildAlerts child={child} />', '']],
  },
  {
    harm: 'whoever meets the child is not told',
    file: 'src/pages/child/workshop-slip-page.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [['<ChildAlerts child={child} />', '']],
  },
  {
    harm: 'the workshop sets a joint axis above the joint',
    file: 'src/pages/child/workshop-slip.ts',
    tests: ['tests/pages/workshop-slip.test.ts'],
    changes: [
      ['builtIn: isBuiltIn(dimension, device.footplate)', 'builtIn: true'],
      ['?? usualAllowance(dimension', '?? 5 * usualAllowance(dimension'],
    ],
  },
  {
    harm: 'A family page leaves out who must be rung, or what to look for',
    file: 'src/pages/family/family-page.tsx',
    tests: ['tests/pages/family-page.test.tsx', 'tests/safety/clinical-safety.test.ts'],
    changes: [
      ['<Signs words={words} regions={regions} insensate={child.insensateSkin} />', ''],
      ['decision && isRungToday(decision.action)', 'false'],
      ['dates.some((d) => d <= today) ||', ''],
      ['v.device.fittedDate !== null', 'true'],
      ['<strong>{words.doNotWait(child.insensateSkin)}</strong>', ''],
      [
        "f.severity === 'act-now')) return words.visitToday",
        "f.severity === 'act-now')) return words.visitUsual",
      ],
      ["region === 'head' && forecast.outcome === 'blocked'", 'false'],
      ['|| isUnknown(forecast));', ');'],
      ["forecast.outcome === 'already-outgrown' || isUnknown", 'isUnknown'],
      ['words.numberOnCard', "''"],
      ['{devices.length > 0 && <p>{words.guess}</p>}', ''],
      ['{child.insensateSkin && (', '{false && ('],
    ],
  },
  {
    harm: 'A family page leaves out who must be rung, or what to look for',
    file: 'src/pages/family/signs.tsx',
    tests: ['tests/pages/family-page.test.tsx'],
    changes: [['{emergency && (', '{false && (']],
  },
  {
    harm: 'who rings the family does not see that its skin cannot warn',
    file: 'src/pages/parts/alert-tags.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [['{alerts.map((alert) => (', '{[].map((alert) => (']],
  },
  {
    harm: 'A page stands without its caution',
    file: 'src/pages/parts/layout.tsx',
    tests: [
      'tests/pages/family-page.test.tsx',
      'tests/safety/clinical-safety.test.ts',
      'tests/safety/who-sees-what.test.tsx',
    ],
    changes: [
      ['Estimates from measurements, not a diagnosis.', 'Measurements.'],
      ['unsigned.length > 0 &&', 'false &&'],
    ],
  },
  {
    harm: 'who rings the families is not told that it cannot wait',
    file: 'src/pages/parts/wanted-row.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [
      ['isRungToday(entry.action)', 'false'],
      ['entry.late && <span', 'false && <span'],
    ],
  },
  {
    harm: 'A letter puts off what is to be seen today, or waits for pain that is not felt',
    file: 'src/pages/recall/letters-page.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [
      ['if (isRungToday(entry.action)) return words.visitToday;', ''],
      ["r.entry.alerts.includes('skin-cannot-warn')", 'false'],
      ['words.doNotWait(numb)', 'words.doNotWait(false)'],
    ],
  },
  {
    harm: 'A key is lost in the list, or says something of another child than the one the keyboard is at',
    file: 'src/pages/parts/assets/recall.js',
    tests: ['tests/browser/keyboard.test.ts'],
    name: 'a scheduler works the list',
    changes: [
      ['if (!button) return;', 'if (!button) return event.preventDefault();'],
      ['mark(index))', 'undefined)'],
      ["addEventListener('load', () => choose(at));", ''],
    ],
  },
  {
    harm: 'After a refusal the keyboard is nowhere, and what was refused is searched for',
    file: 'src/pages/parts/form.tsx',
    tests: ['tests/browser/keyboard.test.ts'],
    name: 'a clinician finds a child',
    changes: [["'aria-invalid': 'true', autofocus: true", "'aria-invalid': 'true'"]],
  },
];
