import { childFaults } from '../../records/check/child-faults.js';
import { type Child, type ConditionId, conditionIds } from '../../records/records.js';
import { plainWord } from './columns.js';
import { type ReadSettings, readRows, type TableResult } from './read-rows.js';
import type { TextTable } from './read-table.js';
import type { RowReader } from './row-reader.js';

const SEX_WORDS = {
  m: 'male',
  boy: 'male',
  f: 'female',
  girl: 'female',
  u: 'unknown',
  x: 'unknown',
  other: 'unknown',
} as const;
const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];
/** Column in which a condition doorpost does not know is kept as written. */
const CONDITION_AS_WRITTEN = 'condition as written';

/** children.csv. A condition doorpost does not know is read as 'other', kept as written, and told. */
export function readChildren(text: TextTable, settings: ReadSettings): TableResult<Child> {
  const notices: string[] = [];
  const result = readRows('children', text, settings, (row) => {
    const birthDate = row.requiredDate('birth_date');
    const { conditions, unknown } = readConditions(row);
    const child = {
      id: row.required('id'),
      name: row.upTo('name', 200),
      birthDate: birthDate ?? '',
      sex: row.oneOf('sex', ['male', 'female', 'unknown'], 'unknown', SEX_WORDS),
      gestationWeeks: row.number('gestation_weeks', 22, 44),
      conditions,
      affectedSide: row.oneOf('affected_side', ['left', 'right', 'both', 'none'], 'none', {
        l: 'left',
        r: 'right',
      }),
      insensateSkin: row.yesNo('insensate_skin'),
      latexAlert: row.yesNo('latex_alert'),
      palliative: row.yesNo('palliative'),
      walks: row.yesNo('walks', true),
      siblingGroup: row.upTo('sibling_group', 80) || null,
      transportDays: readWeekdays(row),
      prefersHolidays: row.yesNo('prefers_holidays'),
      clinician: row.upTo('clinician', 80),
      contact: row.upTo('contact', 400),
      language: row.upTo('language', 35) || 'en',
      status: row.oneOf('status', ['active', 'moved-away', 'discharged', 'died'], 'active'),
      extra: row.extra(),
    } satisfies Child;
    if (row.ok) row.refuseFaults(childFaults(child, settings.today));
    if (!row.ok) return [];
    if (unknown.length === 0) return [child];
    notices.push(
      `${text.file} row ${row.row}: ${unknown.map((word) => `"${word}"`).join(', ')} is not a condition ` +
        `doorpost knows; read as 'other' and kept as written.`,
    );
    return [{ ...child, extra: { ...child.extra, [CONDITION_AS_WRITTEN]: unknown.join(' | ') } }];
  });
  return { ...result, notices };
}

function readConditions(row: RowReader): { conditions: ConditionId[]; unknown: string[] } {
  const words = listCell(row.text('conditions'));
  const known = words.map((word) => conditionIds.find((id) => plainWord(id) === plainWord(word)));
  const unknown = words.filter((_, i) => known[i] === undefined);
  return { conditions: [...new Set(known.map((id) => id ?? 'other'))], unknown };
}

function readWeekdays(row: RowReader): number[] {
  const days = listCell(row.text('transport_days')).map((word) => {
    const named = WEEKDAYS.indexOf(word.slice(0, 3).toLowerCase()) + 1;
    return named || (/^[1-7]$/.test(word) ? Number(word) : 0);
  });
  if (days.includes(0)) row.refuse('transport_days', 'is not a list of weekdays');
  return days;
}

/** 'a | b; c' -> ['a', 'b', 'c']. */
function listCell(text: string): string[] {
  return text
    .split(/[|;,]/)
    .map((word) => word.trim())
    .filter((word) => word !== '');
}
