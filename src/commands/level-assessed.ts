import type { RecallSettingsInput } from '../recall/decide/recall-settings.js';
import { levelRecallList } from '../recall/level/level-recall-list.js';
import type { Assessed } from './assess.js';
import { terminal } from './terminal.js';

/** The same caseload with a week for each entry of its recall list, for a clinic of so many casting slots a week. */
export async function levelAssessed(
  assessed: Assessed,
  slotsPerWeek: number,
  settings: RecallSettingsInput = {},
): Promise<Assessed> {
  terminal.progress('Giving every visit a week ...');
  const children = new Map(assessed.records.map(({ child }) => [child.id, child]));
  const recall = await levelRecallList(assessed.recall, {
    clinic: { clinicians: [{ id: 'clinic', slotsPerWeek }], workshop: [] },
    childOf: (id) => children.get(id),
    turnaroundOf: assessed.turnaroundOf,
    settings,
  });
  terminal.progress('');
  return { ...assessed, recall };
}
