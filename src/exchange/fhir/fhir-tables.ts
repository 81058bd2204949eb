import { stageIds } from '../../records/device.js';
import { columns, type TableName } from '../csv/columns.js';
import { deviceSizes } from '../csv/device-size-heading.js';
import type { TextTable } from '../csv/read-table.js';
import { safeCell } from '../csv/row-reader.js';
import { ownValue } from '../own-value.js';
import type { RefusedRow } from '../refused-row.js';
import { codeOf, measureOfConcept, OWN, sideOfBodySite } from './codes.js';
import { extensionCells, extensionMap, extensionOf, ownIdOf } from './extensions.js';
import type { Read, ReadQuantity, ReadReference, ReadResource } from './r4-schemas.js';
import { type Located, readResources } from './read-resources.js';

/** Cells by heading. */
type Cells = Record<string, string>;
interface Row {
  readonly table: TableName;
  readonly cells: Cells;
}

/**
 * FHIR R4 resources as the tables doorpost reads, so that they meet the same checks as CSV. A refusal's row is the
 * place of the resource in its file, from 1. Resources with nothing for doorpost are counted in a notice.
 */
export function fhirTables(
  file: string,
  bytes: Uint8Array,
): { tables: TextTable[]; refused: readonly RefusedRow[]; notices: string[] } {
  const { resources, refused, passedOver: unread } = readResources(file, bytes);
  const index = indexOf(resources);
  const byTable = new Map<TableName, { row: number; cells: Cells }[]>();
  const passedOver = new Map(unread);
  for (const { row: place, resource } of resources) {
    const row = rowOf(resource, index);
    if (row === 'part-of-another') continue;
    if (row === null) {
      passedOver.set(resource.resourceType, (passedOver.get(resource.resourceType) ?? 0) + 1);
      continue;
    }
    const rows = byTable.get(row.table) ?? [];
    rows.push({ row: place, cells: row.cells });
    byTable.set(row.table, rows);
  }
  const tables = [...byTable].map(([table, rows]) => textTable(file, table, rows));
  const counts = [...passedOver].map(([type, count]) => `${count} ${type}`).join(', ');
  return { tables, refused, notices: counts ? [`${file}: nothing for doorpost in ${counts}.`] : [] };
}

function textTable(file: string, table: TableName, rows: { row: number; cells: Cells }[]): TextTable {
  const headings = [...new Set(rows.flatMap(({ cells }) => Object.keys(cells)))];
  return {
    file: `${file} ${table}`,
    table,
    headings: headings.map(safeCell),
    rows: rows.map(({ row, cells }) => ({
      row,
      cells: headings.map((h) => safeCell(Object.hasOwn(cells, h) ? cells[h] : '')),
    })),
  };
}

/** What is needed of other resources to write one row. */
interface ResourceIndex {
  /** Our own id by FHIR reference: 'Patient/p1', or the address or urn:uuid of its bundle entry. */
  readonly ownId: ReadonlyMap<string, string>;
  readonly conditions: ReadonlyMap<string, readonly string[]>;
  readonly latex: ReadonlySet<string>;
  readonly uses: ReadonlyMap<string, Read<'DeviceUseStatement'>>;
}

function indexOf(located: readonly Located[]): ResourceIndex {
  const ownId = ownIdsOf(located);
  const conditions = new Map<string, string[]>();
  const latex = new Set<string>();
  const uses = new Map<string, Read<'DeviceUseStatement'>>();
  for (const { resource: r } of located) {
    if (r.resourceType === 'Condition') {
      const child = resolve(ownId, r.subject);
      conditions.set(child, [...(conditions.get(child) ?? []), conditionWord(r)]);
    }
    if (r.resourceType === 'AllergyIntolerance' && isOwnLatexAlert(r)) latex.add(resolve(ownId, r.patient));
    if (r.resourceType === 'DeviceUseStatement') uses.set(resolve(ownId, r.device), r);
  }
  return { ownId, conditions, latex, uses };
}

function ownIdsOf(located: readonly Located[]): Map<string, string> {
  const ownId = new Map<string, string>();
  for (const { resource: r, fullUrl } of located) {
    if (r.resourceType !== 'Patient' && r.resourceType !== 'Device') continue;
    const id = ownIdOf(r.resourceType === 'Patient' ? 'child' : 'device', r);
    ownId.set(`${r.resourceType}/${r.id}`, id);
    if (fullUrl) ownId.set(fullUrl, id);
  }
  return ownId;
}

const conditionWord = ({ code }: Read<'Condition'>): string =>
  (codeOf(code, OWN.condition) ?? wordOf(code)).replaceAll(/[|;,]/g, ' ');

/** A concept in words: its own text, or what its first code is shown as. */
const wordOf = (concept: { text?: string; coding?: readonly { display?: string }[] } | undefined): string =>
  concept?.text ?? concept?.coding?.[0]?.display ?? '';

/** What the export adds by the diagnosis is not the record's own alert. */
const isOwnLatexAlert = (r: Read<'AllergyIntolerance'>): boolean =>
  /latex/i.test(JSON.stringify(r.code ?? '')) && !extensionOf(r, 'latex-by-diagnosis')?.valueBoolean;

/** The id a reference means: by the index, else its last part (a resource that is not in this file). */
function resolve(ownId: ReadonlyMap<string, string>, ref: ReadReference | undefined): string {
  const text = ref?.reference ?? '';
  const [type, id] = text.split('/').slice(-2);
  return ownId.get(text) ?? ownId.get(`${type}/${id}`) ?? id ?? text;
}

function rowOf(resource: ReadResource, index: ResourceIndex): Row | 'part-of-another' | null {
  switch (resource.resourceType) {
    case 'Patient':
      return { table: 'children', cells: childCells(resource, index) };
    case 'Observation':
      return observationRow(resource, index);
    case 'Device':
      return { table: 'devices', cells: deviceCells(resource, index) };
    case 'Task':
      return taskRow(resource, index);
    case 'Condition':
    case 'DeviceUseStatement':
      return 'part-of-another';
    case 'AllergyIntolerance':
      return index.latex.has(resolve(index.ownId, resource.patient)) ? 'part-of-another' : null;
  }
}

function childCells(p: Read<'Patient'>, { conditions, latex }: ResourceIndex): Cells {
  const id = ownIdOf('child', p);
  const name = p.name?.[0];
  const own = extensionCells(p, 'children');
  const died = p.deceasedBoolean || p.deceasedDateTime ? 'died' : '';
  return {
    id,
    name: name?.text ?? [...(name?.given ?? []), name?.family].filter(Boolean).join(' ').trim(),
    birth_date: p.birthDate ?? '',
    sex: p.gender ?? 'unknown',
    ...own,
    conditions: (conditions.get(id) ?? []).join(' | '),
    latex_alert: latex.has(id) ? 'yes' : 'no',
    transport_days: (extensionOf(p, 'transport-days')?.valueString ?? '').replaceAll(' ', ' | '),
    contact: own.contact || (p.telecom ?? []).map((t) => t.value ?? '').join(', '),
    language: p.communication?.[0]?.language.coding?.[0]?.code ?? '',
    status: own.status || died || (p.active === false ? 'discharged' : ''),
    ...extraCells(p),
  };
}

function observationRow(o: Read<'Observation'>, index: ResourceIndex): Row | null {
  if (o.status === 'entered-in-error' || o.status === 'cancelled') return null;
  const said: Cells = {
    child_id: resolve(index.ownId, o.subject),
    device_id: resolve(index.ownId, o.device),
    date: o.effectiveDateTime ?? o.effectivePeriod?.start ?? '',
    side: sideOfBodySite(o.bodySite) ?? '',
    note: o.note?.[0]?.text ?? '',
    observer: o.performer?.[0]?.display ?? '',
    method: o.method?.text ?? '',
    verdict: o.valueString ?? '',
  };
  /** What the table has a column for. */
  const row = (table: 'measurements' | 'markers' | 'skin' | 'events', kind: string, own: Cells): Row => {
    const cells = { id: ownIdOf(kind, o), ...said, ...own, ...extensionCells(o, table) };
    const known = Object.entries(cells).filter(([name]) => columns[table].some((c) => c.name === name));
    return { table, cells: Object.fromEntries(known) };
  };
  const measure = measureOfConcept(o.code);
  if (measure !== null && o.valueQuantity) {
    const { table, cells } = row('measurements', 'measurement', { measure, ...valueCells(o.valueQuantity) });
    return { table, cells: { ...cells, ...extraCells(o) } };
  }
  const marker = codeOf(o.code, OWN.marker);
  if (marker !== null)
    return row('markers', 'marker', { kind: marker, value: String(o.valueQuantity?.value ?? '') });
  const skin = codeOf(o.code, OWN.skin);
  if (skin !== null) return row('skin', 'skin-check', { state: skin });
  const event = codeOf(o.code, OWN.event);
  return event === null ? null : row('events', 'event', { kind: event });
}

const UCUM_UNITS: Readonly<Record<string, string>> = { '[in_i]': 'inch', '[ft_i]': 'ft', '[lb_av]': 'lb' };

/** cm are given as mm by moving the decimal point in the text, so that nothing is lost (see to-fhir.ts). */
function valueCells({ value, code, unit }: ReadQuantity): Cells {
  const written = code ?? unit ?? '';
  if (value === undefined) return { value: '', unit: written };
  if (written === 'cm') return { value: String(Number(`${value}e1`)), unit: 'mm' };
  return { value: String(value), unit: ownValue(UCUM_UNITS, written) ?? written };
}

function deviceCells(d: Read<'Device'>, index: ResourceIndex): Cells {
  const id = ownIdOf('device', d);
  const use = index.uses.get(id);
  const own = extensionCells(d, 'devices');
  const sizes = Object.keys(deviceSizes).flatMap((size) =>
    Object.entries(extensionMap<number>(d, `${size}-mm`)).map(([measure, mm]) => [
      `${size}_${measure}_mm`,
      String(mm),
    ]),
  );
  return {
    id,
    child_id: resolve(index.ownId, d.patient ?? use?.subject),
    family: codeOf(d.type, OWN.family) ?? wordOf(d.type),
    side: sideOfBodySite(use?.bodySite) ?? '',
    ...own,
    cast_date: own.cast_date || (d.manufactureDate ?? ''),
    fitted_date: use?.timingPeriod?.start ?? use?.timingDateTime ?? '',
    status: statusOf(d, use),
    ...Object.fromEntries(sizes),
    ...extraCells(d),
  };
}

/** By its use; without one the device itself says only whether it has ended. */
function statusOf(d: Read<'Device'>, use: Read<'DeviceUseStatement'> | undefined): string {
  if (use === undefined) return d.status === 'inactive' ? 'retired' : '';
  return ownValue({ intended: 'ordered', active: 'worn' }, use.status) ?? 'retired';
}

function taskRow(t: Read<'Task'>, index: ResourceIndex): Row | null {
  const stages = (t.output ?? []).map((output) => [codeOf(output.type, OWN.stage), output.valueDate ?? '']);
  const family = codeOf(t.code, OWN.family);
  if (family === null) return null;
  const status = ownValue({ completed: 'fitted', cancelled: 'cancelled' }, t.status) ?? 'in-progress';
  const cells: Cells = {
    id: ownIdOf('job', t),
    device_id: resolve(index.ownId, t.focus),
    family,
    status,
    ...Object.fromEntries(stages.filter(([stage]) => stageIds.some((id) => id === stage))),
  };
  return { table: 'jobs', cells };
}

function extraCells(resource: Read<'Patient' | 'Observation' | 'Device'>): Cells {
  const columns = Object.entries(extensionMap<string>(resource, 'column'));
  return Object.fromEntries(columns.map(([heading, text]) => [`extra:${heading}`, text]));
}
