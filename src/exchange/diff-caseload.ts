import { type Caseload, type CaseloadPart, caseloadParts } from '../records/caseload.js';

export interface ChangedRecord<T> {
  readonly id: string;
  readonly before: T;
  readonly after: T;
  /** Names of the fields that differ. */
  readonly fields: readonly string[];
}

export interface TableDiff<T> {
  readonly added: readonly T[];
  readonly changed: readonly ChangedRecord<T>[];
  readonly unchanged: number;
  /** In `before` only. An import leaves these as they are. */
  readonly untouched: number;
}

export type CaseloadDiff = { readonly [P in CaseloadPart]: TableDiff<Caseload[P][number]> };

/** What taking `after` in would do to `before`, record by record, matched by id: the dry run of an import. */
export const diffCaseload = (before: Caseload, after: Caseload): CaseloadDiff =>
  Object.fromEntries(
    caseloadParts.map((part) => [part, diffTable<{ readonly id: string }>(before[part], after[part])]),
  ) as unknown as CaseloadDiff;

function diffTable<T extends { readonly id: string }>(
  before: readonly T[],
  after: readonly T[],
): TableDiff<T> {
  const known = new Map(before.map((record) => [record.id, record]));
  const added: T[] = [];
  const changed: ChangedRecord<T>[] = [];
  let unchanged = 0;
  for (const record of after) {
    const old = known.get(record.id);
    if (old === undefined) added.push(record);
    else {
      const fields = fieldsThatDiffer(old, record);
      if (fields.length > 0) changed.push({ id: record.id, before: old, after: record, fields });
      else unchanged++;
    }
  }
  const given = new Set(after.map((record) => record.id));
  return { added, changed, unchanged, untouched: before.filter((record) => !given.has(record.id)).length };
}

function fieldsThatDiffer(a: object, b: object): string[] {
  const [x, y] = [a, b] as Record<string, unknown>[];
  return [...new Set([...Object.keys(x), ...Object.keys(y)])].filter(
    (key) => canonical(x[key]) !== canonical(y[key]),
  );
}

/** JSON with sorted keys: the order of columns in a file is no difference. */
function canonical(value: unknown): string {
  return JSON.stringify(value ?? null, (_, inner) =>
    inner !== null && typeof inner === 'object' && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([p], [q]) => (p < q ? -1 : 1)))
      : inner,
  );
}
