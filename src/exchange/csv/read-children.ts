import { childFaults } from '../../records/check/child-faults.js';
import { childFieldNames } from '../../records/child-fields.js';
import { type Child, type ConditionId, conditionIds } from '../../records/records.js';
import { plainWord } from './columns.js';
import { readFields } from './read-fields.js';
import { readRows, type TableResult } from './read-rows.js';
import type { TextTable } from './read-table.js';
import type { ReadSettings, RowReader } from './row-reader.js';

/** Read by their kind; number, conditions and days of the week are read here. */
const OWN = childFieldNames.filter((f) => f !== 'conditions' && f !== 'transportDays' && f !== 'extra');
/** In the order of their numbers, 1 Monday .. 7 Sunday. */
export const weekdayWords = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];
/** Column in which a condition doorpost does not know is kept as written. */
const CONDITION_AS_WRITTEN = 'condition as written';

/** children.csv. A condition doorpost does not know is read as 'other', kept as written, and told. */
export function readChildren(text: TextTable, settings: ReadSettings): TableResult<Child> {
  const notices: string[] = [];
  const result = readRows('children', text, settings, (row) => {
    const { conditions, unknown } = readConditions(row);
    const child = {
      id: row.required('id'),
      ...readFields(row, 'children', OWN),
      conditions,
      transportDays: readWeekdays(row),
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
    const named = weekdayWords.indexOf(word.slice(0, 3).toLowerCase()) + 1;
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
