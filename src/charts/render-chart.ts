/** A filled specification to SVG and PNG, on a machine with neither browser nor fonts. */
import { createHash } from 'node:crypto';
import { createRequire } from 'node:module';
import { renderAsync } from '@resvg/resvg-js';
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { DoorpostError } from '../errors.js';
import type { Spec } from './fill-spec.js';

const require = createRequire(import.meta.url);
const ptSans = (file: string) => require.resolve(`@expo-google-fonts/pt-sans/${file}`);
const dejavu = (file: string) => require.resolve(`dejavu-fonts-ttf/ttf/${file}`);

/** The two faces every chart is set in; DejaVu Sans stands in for scripts the first one lacks (Arabic, Greek). */
export const chartFonts = {
  regular: ptSans('400Regular/PTSans_400Regular.ttf'),
  bold: ptSans('700Bold/PTSans_700Bold.ttf'),
  fallback: dejavu('DejaVuSans.ttf'),
  fallbackBold: dejavu('DejaVuSans-Bold.ttf'),
};

/** Mean advance of a character of the chart's face, em; Vega's own guess without a canvas is .8 and leaves holes in legends. */
const MEAN_ADVANCE_EM = 0.53;
const { textMetrics } = vega as unknown as {
  textMetrics: { width: (item: { fontSize?: number }, text: unknown) => number };
};
textMetrics.width = (item, text) =>
  Math.ceil(MEAN_ADVANCE_EM * String(text ?? '').length * (item.fontSize ?? 11));

/** What is done with what Vega or Vega-Lite warns of: an error, so that a test sees it, unless a service says otherwise. */
let onWarning = (words: string): void => {
  throw new DoorpostError('chart-warning', words);
};

/**
 * A service hands warnings to its log and shows the chart: a person who needs the page is not helped by an error.
 * Gives back what was done before.
 */
export function hearChartWarnings(heard: (words: string) => void): (words: string) => void {
  const before = onWarning;
  onWarning = heard;
  return before;
}

/** Compiled forms, by what is asked for; Vega-Lite takes longer to compile a chart than Vega to draw it. */
const compiled = new Map<string, vega.Spec>();
const FORMS_KEPT = 400;

/**
 * Compiles to Vega. Charts that differ in their rows, words and extent alone have one form, which is compiled once; theirs
 * are put in their places.
 */
export function compileChart(spec: Spec): vega.Spec {
  const { title, encoding, datasets } = spec;
  const domain = encoding?.y?.scale?.domain;
  const form = {
    ...spec,
    description: '',
    title: title && { ...title, text: ' ', subtitle: ' ' },
    ...(domain && {
      encoding: { ...encoding, y: { ...encoding.y, scale: { ...encoding.y.scale, domain: [0, 1] } } },
    }),
    datasets: datasets && Object.fromEntries(Object.keys(datasets).map((name) => [name, []])),
  };
  const key = JSON.stringify(form);
  const kept = compiled.get(key) ?? compileForm(form);
  compiled.delete(key);
  compiled.set(key, kept);
  if (compiled.size > FORMS_KEPT) compiled.delete(compiled.keys().next().value as string);
  return {
    ...kept,
    description: spec.description,
    ...(title && { title: { ...(kept.title as vega.Title), text: title.text, subtitle: title.subtitle } }),
    ...(domain && {
      scales: kept.scales?.map((s) => (s.name === 'y' ? ({ ...s, domain } as vega.Scale) : s)),
    }),
    data: kept.data?.map((d) =>
      datasets && d.name in datasets ? ({ ...d, values: datasets[d.name] } as vega.Data) : d,
    ),
  };
}

/** What Vega-Lite warns of goes the way of warnings. */
function compileForm(spec: Spec): vega.Spec {
  const complaints: string[] = [];
  const note = (...said: readonly unknown[]) => {
    complaints.push(said.map(String).join(' '));
    return logger;
  };
  const logger = { level: () => logger, error: note, warn: note, info: () => logger, debug: () => logger };
  const compiled = compile(spec as TopLevelSpec, { logger: logger as never }).spec;
  if (complaints.length > 0) onWarning(`Vega-Lite says: ${complaints.join('; ')}`);
  return compiled;
}

let draw: (spec: Spec) => Promise<string> = drawSvg;
/** Another way of drawing, see draw-aside.ts. */
export function drawChartsBy(way: (spec: Spec) => Promise<string>): void {
  draw = way;
}
export const renderSvg = (spec: Spec): Promise<string> => draw(spec);

/** Hands on what a chart drawn elsewhere warned of. */
export const chartWarning = (words: string): void => onWarning(words);

export async function drawSvg(spec: Spec): Promise<string> {
  const complaints: string[] = [];
  const view = new vega.View(vega.parse(compileChart(spec)), { renderer: 'none', logLevel: vega.Warn });
  view.logger({
    ...view.logger(),
    warn(...said: readonly unknown[]) {
      complaints.push(said.map(String).join(' '));
      return this;
    },
  } as vega.LoggerInterface);
  const svg = await view.toSVG();
  view.finalize();
  if (complaints.length > 0) onWarning(`Vega says: ${complaints.join('; ')}`);
  return ownIds(svg);
}

/**
 * Vega numbers clip paths through the life of the process. Here they are numbered within the picture and marked with
 * a digest of it, so that the same chart gives the same text and two charts on one page do not share a clip path.
 */
function ownIds(svg: string): string {
  const numbers = new Map<string, number>();
  const plain = svg.replace(/\b(clip|gradient_)(\d+)\b/g, (id, kind) => {
    if (!numbers.has(id)) numbers.set(id, numbers.size);
    return `${kind}${numbers.get(id)}`;
  });
  const digest = createHash('sha256').update(plain).digest('hex').slice(0, 8);
  return plain.replace(/\b(clip|gradient_)(\d+)\b/g, `c${digest}-$2`);
}

/** `scale` 2 suits print and dense screens. */
export const renderPng = async (spec: Spec, scale = 2): Promise<Buffer> =>
  pngOf(await renderSvg(spec), scale);

/** A picture drawn already, in a thread of its own: a page of it takes longer than to draw it. */
export async function pngOf(svg: string, scale = 2): Promise<Buffer> {
  const image = await renderAsync(svg, {
    background: '#ffffff',
    fitTo: { mode: 'zoom', value: scale },
    font: {
      loadSystemFonts: false,
      fontFiles: Object.values(chartFonts),
      defaultFontFamily: 'PT Sans',
      sansSerifFamily: 'DejaVu Sans',
    },
  });
  return image.asPng();
}
