import type { FitRules } from '../../../rules/fit-rule.js';
import { foldText } from '../../headings/fold-words.js';
import { isField } from '../../headings/meaning.js';
import { cellDevices } from '../cell-device.js';
import type { Column } from '../column.js';
import { isGeneric, nearestFirst } from '../device-names.js';
import type { GridRow } from '../grid.js';
import type { SpokenDevice } from '../spoken-device.js';
import type { TakenTable } from '../taken-table.js';
import { fileTitle } from '../title-measure.js';
import { castsIn } from './device-dates.js';
import type { DeviceRegister, MadeDevice, Mention } from './device-register.js';

/** 'AFO fitted', 'brace let out': the devices of such a kind that the child has by then, all of one family; none where a new one may be meant. */
export function wornMeant(
  taken: TakenTable,
  { row, person, visit }: Mention,
  { family, word, cast, fresh, side, stage }: SpokenDevice,
  register: DeviceRegister,
): readonly MadeDevice[] {
  const open = family?.includes('|') || (family === null && isGeneric(word));
  if (!open || visit === null || fresh || cast !== null || stage === 'cast' || castsIn(taken, row).length > 0)
    return [];
  const worn = register
    .wornBy(person.id, visit)
    .filter(({ cells }) => family === null || family.split('|').includes(cells.family))
    .filter(({ cells }) => side === null || side === 'both' || cells.side === side || cells.side === 'both');
  return new Set(worn.map(({ cells }) => cells.family)).size === 1 ? worn : [];
}

/** The family of a name: asked once a word where the name leaves it open or nobody knows it. */
export function familyOf(
  taken: TakenTable,
  row: GridRow,
  device: SpokenDevice,
  column: Column,
): string | null {
  const { family } = device;
  const { rules } = taken.desk;
  const open = (family ?? '').split('|').filter((f) => rules.has(f));
  if (family !== null && (open.length === 1 || !family.includes('|'))) return open[0] ?? family;
  return askFamily(taken, row, device, column, open);
}

function askFamily(
  taken: TakenTable,
  row: GridRow,
  { family, likely, word, said }: SpokenDevice,
  column: Column,
  open: readonly string[],
): string | null {
  const { rules } = taken.desk;
  const id = `device:${word.replace(/s$/, '')}`;
  const name = rules.get(likely ?? '')?.names.en.clinical;
  // 'KAFO with extension', 'weiches Korsett': the name says the device, whatever else stands with it.
  if (family === null && name !== undefined && taken.desk.asker.known(id, taken.file) === null) {
    taken.tell(`"${said || word}" is taken as ${name}.`);
    return likely;
  }
  // 'OSP' and 'orthèses suro-pédieuses' are one question; a carbon AFO is another.
  const isPlain = open.length > 1 && !/carb/.test(word) && taken.desk.asker.known(id, taken.file) === null;
  const answer = taken.ask({
    id: isPlain ? PLAIN : id,
    ...(open.length > 0
      ? { asks: `Which device does this clinic mean by "${asWritten(said, word)}"?`, suggested: open[0] }
      : {
          asks: `Which device is "${said || word}" under "${column.heading}"?`,
          suggested: likely?.split('|').find((f) => rules.has(f)) ?? headed(column, taken),
        }),
    examples: [said || word],
    choices: familyChoices(open.length > 0 ? open : nearestFirst([...rules.keys()], word), rules),
    at: [row, column],
  });
  return answer !== null && rules.has(answer) ? answer : null;
}

/** What a clinic calls an ankle-foot orthosis, in whatever words and language. */
const PLAIN = 'device:afo';

/** The word of a question as the sheet has it. */
const asWritten = (said: string, word: string): string =>
  said.split(/[\s,;()+/]+/).find((part) => foldText(part) === word) ??
  (foldText(said) === word ? said : word);

/** 'CTM' under 'Corset': likely what the heading names. */
function headed({ heading }: Column, { desk }: TakenTable): string | null {
  const [named, ...more] = cellDevices(heading);
  return more.length === 0 && named?.family && desk.rules.has(named.family) ? named.family : null;
}

/** The one device of a sheet that gives its dates and never its name. */
export function deviceOfSheet(taken: TakenTable, row: GridRow, column: Column): string | null {
  const { rules } = taken.desk;
  const has = (test: (meaning: NonNullable<Column['meaning']>) => boolean) =>
    taken.columns.some((c) => c.meaning !== null && test(c.meaning));
  const spine = has((m) => isField(m, 'marker.pelvis_stage'));
  const feet = has((m) => m.kind === 'reading' && m.measure.startsWith('foot_'));
  const head = has((m) => m.kind === 'reading' && m.measure === 'head_circumference');
  // 'KAFO clinic 2026' over the list.
  const titled = [...taken.table.titles, fileTitle(taken.table.file)]
    .flatMap(cellDevices)
    .find(({ likely }) => likely !== null && rules.has(likely))?.likely;
  const trunk = spine ? 'spinal-orthosis' : null;
  const measured = head && !spine ? 'cranial-orthosis' : trunk;
  const likely = titled || (feet ? null : measured);
  const answer = taken.ask({
    id: 'one-device',
    asks: `"${column.heading}" says when and no column says which device. Which is it?`,
    examples: column.examples,
    suggested: likely !== null && rules.has(likely) ? likely : null,
    choices: familyChoices([...rules.keys()], rules),
    at: [row, column],
  });
  return answer !== null && rules.has(answer) ? answer : null;
}

const familyChoices = (families: readonly string[], rules: FitRules) =>
  [...families, 'leave'].map((answer) => ({ answer, label: rules.get(answer)?.names.en.clinical ?? answer }));
