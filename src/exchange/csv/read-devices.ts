import { caseloadFaults } from '../../records/check/caseload-faults.js';
import type { Device } from '../../records/device.js';
import type { MeasureId } from '../../records/measure.js';
import { isLengthUnit, toBaseUnit, unitNamed } from '../../records/units.js';
import type { FamilyRule, FitRules } from '../../rules/fit-rule.js';
import { nearestWord } from '../nearest-word.js';
import { plainWord } from './columns.js';
import { type DeviceSize, deviceSizeHeading, deviceSizes } from './device-size-heading.js';
import { readFields } from './read-fields.js';
import { readNumber } from './read-number.js';
import { readRows, type TableResult } from './read-rows.js';
import type { TextTable } from './read-table.js';
import type { ReadSettings, RowReader, TableLayout } from './row-reader.js';

/** devices.csv, with allowance_, limit_ and extension_ columns a measure. */
export function readDevices(text: TextTable, settings: ReadSettings): TableResult<Device> {
  return readRows('devices', text, settings, (row, layout) => {
    const [childId] = row.child();
    const family = readFamily(row, settings.rules);
    const own = readFields(row, 'devices', [
      ...(['side', 'castDate', 'fittedDate', 'footplate'] as const),
      ...(['hipAngleFrom', 'hipAngleTo', 'replaces'] as const),
    ]);
    const { castDate, fittedDate } = own;
    const side = sideOf(own.side, settings.rules.get(family));
    const sizes = readSizes(row, layout);
    const device = {
      id: row.id('d', childId, family, side, castDate),
      childId,
      ...own,
      family,
      side,
      status: row.oneOf('status', ['ordered', 'worn', 'retired'], fittedDate ? 'worn' : 'ordered'),
      allowancesMm: sizes.allowance,
      limitsMm: sizes.limit,
      extensionRangeMm: sizes.extension,
      extra: row.extra(sizes.columnsRead),
    } satisfies Device;
    if (row.ok) row.refuseFaults(caseloadFaults({ devices: [device] }, settings), sizes.headings);
    return row.ok ? [device] : [];
  });
}

function readFamily(row: RowReader, rules: FitRules): string {
  const text = row.required('family');
  const word = plainWord(text);
  const known = [...rules.keys()];
  const family = familyNamed(text, rules) ?? wordsOf(rules).also.get(word);
  if (family !== undefined || text === '') return family ?? '';
  const near = nearestWord(text, known);
  row.refuse(
    'family',
    near ? `is no device family doorpost knows; was ${near} meant` : 'is no device family doorpost knows',
  );
  return text;
}

/** By its own id or name, which goes before a word that another family lists too: 'Night AFO' may be a clinic's own family. */
export const familyNamed = (text: string, rules: FitRules): string | undefined =>
  wordsOf(rules).own.get(plainWord(text));

interface FamilyWords {
  readonly own: ReadonlyMap<string, string>;
  readonly also: ReadonlyMap<string, string>;
}
/** How families are written, once for all rows. */
const familyWords = new WeakMap<FitRules, FamilyWords>();
function wordsOf(rules: FitRules): FamilyWords {
  const known = familyWords.get(rules);
  if (known) return known;
  const by = (as: (rule: FamilyRule) => readonly string[]) =>
    // Of two families with one word the first has it.
    new Map([...rules.values()].flatMap((r) => as(r).map((w) => [plainWord(w), r.id] as const)).reverse());
  const words = {
    own: by(({ id, names }) => [id, ...Object.values(names).map((n) => n.clinical)]),
    also: by((r) => r.alsoWritten),
  };
  familyWords.set(rules, words);
  return words;
}

/** The side as written; a frame over both legs need not say so. */
const sideOf = (side: Device['side'], rule: FamilyRule | undefined): Device['side'] =>
  rule?.sides === 'both' && side === 'none' ? 'both' : side;

function readSizes(row: RowReader, layout: TableLayout) {
  const sizes: Record<DeviceSize, Partial<Record<MeasureId, number>>> = {
    allowance: {},
    limit: {},
    extension: {},
  };
  const columnsRead = new Set<number>();
  /** By field of the record: the heading it stood under. */
  const headings: Record<string, string> = {};
  for (const { index, heading } of layout.others) {
    const named = deviceSizeHeading(heading);
    if (named === null) continue;
    columnsRead.add(index);
    const cell = row.cells[index] ?? '';
    if (cell === '') continue;
    const number = readNumber(cell);
    const unit = unitNamed(named.unit ?? '');
    const accepted = 'a number of at least 0, with its unit in the heading (mm, cm or inch)';
    if (unit === null || !isLengthUnit(unit)) {
      row.refuseCell(heading, cell, 'has no unit of length in its heading', accepted);
    } else if (number === null) {
      row.refuseCell(heading, cell, 'is not such a number', accepted);
    } else {
      sizes[named.size][named.measure] = toBaseUnit(number, unit);
      headings[`${deviceSizes[named.size]}.${named.measure}`] = heading;
    }
  }
  return { ...sizes, columnsRead, headings };
}
