import { mkdir, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { stringify } from 'csv-stringify/sync';
import type { Caseload } from '../../records/caseload.js';
import { type Device, stageIds } from '../../records/device.js';
import { type MeasureId, measureIds, measures } from '../../records/measure.js';
import { columnOf, plainWord, type TableName, tableNames } from './columns.js';
import { deviceSizeHeading } from './device-size-heading.js';
import { measureHeading } from './measure-names.js';
import { safeCell } from './row-reader.js';

type Cell = string | number | boolean | null;
type Row = Readonly<Record<string, Cell>>;

/**
 * The tables of a caseload as CSV text by file name, in the columns doorpost reads: reading them back gives the
 * same caseload. UTF-8 with byte order mark, so that spreadsheets show accents right; lengths in mm.
 */
export function csvTables(caseload: Caseload): Record<`${TableName}.csv`, string> {
  const rows = tableRows(caseload);
  return Object.fromEntries(tableNames.map((table) => [`${table}.csv`, csvText(rows[table])])) as Record<
    `${TableName}.csv`,
    string
  >;
}

/** Writes all tables into a folder; each appears whole or not at all. */
export async function writeCaseload(folder: string, caseload: Caseload): Promise<string[]> {
  await mkdir(folder, { recursive: true });
  return Promise.all(
    Object.entries(csvTables(caseload)).map(async ([name, text]) => {
      const path = join(folder, name);
      await writeFile(`${path}.part`, text);
      await rename(`${path}.part`, path);
      return path;
    }),
  );
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the columns of every table beside each other, one a line
function tableRows(caseload: Caseload): Record<TableName, { headings: string[]; rows: Row[] }> {
  const table = (headings: string[], rows: Row[]) => ({
    headings: [...headings, ...moreHeadings(headings, rows)],
    rows,
  });
  return {
    children: table(
      [
        'id',
        'name',
        'birth_date',
        'sex',
        'gestation_weeks',
        'conditions',
        'affected_side',
        'insensate_skin',
        'latex_alert',
        'palliative',
        'walks',
        'sibling_group',
        'transport_days',
        'prefers_holidays',
        'clinician',
        'contact',
        'language',
        'status',
      ],
      caseload.children.map((c) => ({
        id: c.id,
        name: c.name,
        birth_date: c.birthDate,
        sex: c.sex,
        gestation_weeks: c.gestationWeeks,
        conditions: c.conditions.join(' | '),
        affected_side: c.affectedSide,
        insensate_skin: yesNo(c.insensateSkin),
        latex_alert: yesNo(c.latexAlert),
        palliative: yesNo(c.palliative),
        walks: yesNo(c.walks),
        sibling_group: c.siblingGroup,
        transport_days: c.transportDays.map((day) => WEEKDAYS[day - 1]).join(' | '),
        prefers_holidays: yesNo(c.prefersHolidays),
        clinician: c.clinician,
        contact: c.contact,
        language: c.language,
        status: c.status,
        ...extraCells('children', c.extra),
      })),
    ),
    measurements: table(
      [
        'id',
        'child_id',
        'date',
        'measure',
        'side',
        'value',
        'unit',
        'method',
        'observer',
        'technical_error',
        'entered',
      ],
      caseload.measurements.map((m) => ({
        id: m.id,
        child_id: m.childId,
        date: m.date,
        measure: m.measure,
        side: m.side,
        value: m.value,
        unit: measures[m.measure].unit,
        method: m.method,
        observer: m.observer,
        technical_error: m.technicalError,
        entered: m.entered,
        ...extraCells('measurements', m.extra),
      })),
    ),
    devices: table(
      ['id', 'child_id', 'family', 'side', 'cast_date', 'fitted_date', 'status', 'footplate', 'replaces'],
      caseload.devices.map((d) => ({
        id: d.id,
        child_id: d.childId,
        family: d.family,
        side: d.side,
        cast_date: d.castDate,
        fitted_date: d.fittedDate,
        status: d.status,
        footplate: d.footplate,
        replaces: d.replaces,
        ...sizeCells(d),
        ...extraCells('devices', d.extra),
      })),
    ),
    events: table(
      [
        'id',
        'device_id',
        'date',
        'kind',
        'measure',
        'side',
        'change_mm',
        'adjustment',
        'verdict',
        'end_reason',
        'note',
      ],
      caseload.events.map((e) => ({
        id: e.id,
        device_id: e.deviceId,
        date: e.date,
        kind: e.kind,
        measure: e.measure,
        side: e.side,
        change_mm: e.changeMm,
        adjustment: e.adjustment,
        verdict: e.verdict,
        end_reason: e.endReason,
        note: e.note,
      })),
    ),
    markers: table(
      ['id', 'child_id', 'date', 'kind', 'value', 'sd_years'],
      caseload.markers.map((k) => ({
        id: k.id,
        child_id: k.childId,
        date: k.date,
        kind: k.kind,
        value: k.value,
        sd_years: k.sdYears,
      })),
    ),
    skin: table(
      [
        'id',
        'child_id',
        'device_id',
        'date',
        'state',
        'minutes',
        'where',
        'side',
        'cannot_warn',
        'observer',
        'note',
      ],
      caseload.skinChecks.map((s) => ({
        id: s.id,
        child_id: s.childId,
        device_id: s.deviceId,
        date: s.date,
        state: s.state,
        minutes: s.minutes,
        where: s.where,
        side: s.side,
        cannot_warn: yesNo(s.cannotWarn),
        observer: s.observer,
        note: s.note,
      })),
    ),
    jobs: table(
      ['id', 'device_id', 'family', ...stageIds, 'status'],
      caseload.jobs.map((j) => ({
        id: j.id,
        device_id: j.deviceId,
        family: j.family,
        ...Object.fromEntries(stageIds.map((stage) => [stage, j.stages[stage] ?? null])),
        status: j.status,
      })),
    ),
  };
}

const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];
const yesNo = (value: boolean): string => (value ? 'yes' : 'no');

function moreHeadings(headings: readonly string[], rows: readonly Row[]): string[] {
  const known = new Set(headings);
  return [...new Set(rows.flatMap((row) => Object.keys(row)))].filter((heading) => !known.has(heading));
}

/** Columns of a clinic's own; one whose heading doorpost would read as its own column is written 'extra:...'. */
function extraCells(table: TableName, extra: Readonly<Record<string, string>>): Row {
  return Object.fromEntries(
    Object.entries(extra).map(([heading, text]) => [
      readAsOwn(table, heading) ? `extra:${heading}` : heading,
      text,
    ]),
  );
}

function readAsOwn(table: TableName, heading: string): boolean {
  return (
    heading.trim() === '' ||
    columnOf(table, heading) !== null ||
    measureHeading(heading) !== null ||
    deviceSizeHeading(heading) !== null ||
    /^(value|reading|size)_/.test(plainWord(heading)) ||
    heading.startsWith('extra:')
  );
}

function sizeCells(device: Device): Row {
  const sizes = {
    allowance: device.allowancesMm,
    limit: device.limitsMm,
    extension: device.extensionRangeMm,
  };
  return Object.fromEntries(
    Object.entries(sizes).flatMap(([pattern, byMeasure]) =>
      measureIds
        .filter((id: MeasureId) => byMeasure[id] !== undefined)
        .map((id) => [`${pattern}_${id}_mm`, byMeasure[id] as number]),
    ),
  );
}

function csvText({ headings, rows }: { headings: string[]; rows: Row[] }): string {
  const lines = rows.map((row) =>
    headings.map((heading) => cellText(Object.hasOwn(row, heading) ? row[heading] : null)),
  );
  return stringify([headings.map(safeCell), ...lines], {
    bom: true,
    record_delimiter: 'windows',
    quoted_match: /^\s|\s$|[\r\n;\t|]/,
  });
}

function cellText(cell: Cell): string {
  return typeof cell === 'string' ? safeCell(cell) : String(cell ?? '');
}
