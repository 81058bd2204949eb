/**
 * A chart file in `charts/` is a Vega-Lite specification with blanks: a string `"{{name}}"` is replaced by the
 * value of that name (any JSON value), `{{name}}` inside a longer string by its text, and every data set is
 * named. Filling is all this room does to a specification: how a chart looks is decided in the file.
 */
import { readFileSync } from 'node:fs';
import { DoorpostError } from '../errors.js';

export type ChartName = 'growth' | 'family' | 'timeline' | 'capacity';
export type Row = Readonly<Record<string, string | number | boolean | null | undefined>>;
// biome-ignore lint/suspicious/noExplicitAny: a filled specification is JSON for Vega-Lite, checked by compiling it.
export type Spec = Record<string, any>;

const folder = new URL('../../charts/', import.meta.url);
const read = (name: string): Spec => JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Spec;
const cache = new Map<string, Spec>();

function cached(name: string): Spec {
  const known = cache.get(name);
  if (known) return known;
  const spec = read(name);
  cache.set(name, spec);
  return spec;
}

export function fillSpec(
  name: ChartName,
  blanks: Readonly<Record<string, unknown>>,
  datasets: Readonly<Record<string, readonly Row[]>>,
  locale: unknown,
): Spec {
  const value = (blank: string): unknown => {
    if (blank in blanks) return blanks[blank];
    throw new DoorpostError('chart-blank', `Chart ${name} has the blank "${blank}", which nothing fills`);
  };
  const fill = (node: unknown): unknown => {
    if (typeof node === 'string') {
      const whole = /^\{\{(\w+)\}\}$/.exec(node);
      return whole ? value(whole[1]) : node.replace(/\{\{(\w+)\}\}/g, (_, blank) => String(value(blank)));
    }
    if (Array.isArray(node)) return node.map(fill);
    if (node && typeof node === 'object')
      return Object.fromEntries(Object.entries(node).map(([key, inner]) => [key, fill(inner)]));
    return node;
  };
  const filled = fill(cached(`${name}.vl.json`)) as Spec;
  const drawn = JSON.stringify(filled);
  return {
    ...filled,
    // A layer with nothing to draw is left out: Vega warns of scales over no rows.
    ...(filled.layer && { layer: filled.layer.flatMap((l: Spec) => withRows(l, datasets[l.data.name])) }),
    datasets: Object.fromEntries(
      Object.entries(datasets).filter(
        ([of, rows]) => rows.length > 0 && drawn.includes(`"data":{"name":"${of}"`),
      ),
    ),
    config: { ...cached('style.json'), locale },
  };
}

/** The layer without those of its parts whose place is empty in every row; nothing where there is no row. */
function withRows(layer: Spec, rows: readonly Row[]): Spec[] {
  if (rows.length === 0) return [];
  if (!layer.layer) return [layer];
  const placed = (part: Spec) =>
    [part.encoding?.x?.field, part.encoding?.y?.field].every(
      (field) => field === undefined || rows.some((row) => row[field] !== null && row[field] !== undefined),
    );
  return [{ ...layer, layer: layer.layer.filter(placed) }];
}
