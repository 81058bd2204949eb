import { capital } from '../../forecast/words.js';
import type { DeviceDecision } from '../../recall/contract.js';
import type { IsoDate } from '../../records/dates.js';
import { actionNames } from '../../words/action-names.js';
import type { Format } from './format.js';

/** What is wanted and when, as every clinician's page says it: 'Cast', 'was due by 24 Dec 2025, 6 months ago'. */
export function dueText(
  { action, dueBy }: Pick<DeviceDecision, 'action' | 'dueBy'>,
  today: IsoDate,
  format: Format,
): { readonly what: string; readonly when: string; readonly late: boolean } {
  const what = capital(actionNames[action]);
  if (dueBy === null) return { what, when: '', late: false };
  if (dueBy === today) return { what, when: 'today', late: false };
  const day = `${format.date(dueBy)}, ${format.away(dueBy, today)}`;
  if (dueBy < today) return { what, when: `was due by ${day}`, late: true };
  return { what, when: action === 'none' ? `before ${day}` : `by ${day}`, late: false };
}
