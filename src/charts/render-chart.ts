/** A filled specification to SVG and PNG, on a machine with neither browser nor fonts. */
import { createHash } from 'node:crypto';
import { createRequire } from 'node:module';
import { renderAsync } from '@resvg/resvg-js';
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { DoorpostError } from '../errors.js';
import type { Row, Spec } from './fill-spec.js';

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

/** Charts ready to be filled, by form: to compile one and parse what comes of it takes longer than to draw it. */
const forms = new Map<string, vega.Runtime>();
const FORMS_KEPT = 400;

/** What differs between charts of one form beside their rows and params: a form names them, a picture fills them in. */
const ownOf = ({ title, encoding, params }: Spec): Readonly<Record<string, unknown>> => ({
  ...Object.fromEntries((params ?? []).map((p: { name: string; value: unknown }) => [p.name, p.value])),
  ...(title && { titleText: title.text, titleSubtitle: title.subtitle ?? '' }),
  ...(encoding?.y?.scale?.domain && { yDomain: encoding.y.scale.domain }),
  ...(encoding?.y?.axis?.title && { yTitle: encoding.y.axis.title }),
});

/**
 * A specification's form, compiled and parsed once. Charts that differ in their rows, params, words and extent alone have
 * one; what is their own they are given in `drawSvg`.
 */
function formOf(spec: Spec): vega.Runtime {
  const { title, encoding, datasets, params } = spec;
  const y = encoding?.y;
  const form = {
    ...spec,
    description: '',
    title: title && { ...title, text: ' ', subtitle: ' ' },
    ...(params && { params: params.map((p: Spec) => ({ ...p, value: null })) }),
    ...(y && {
      encoding: {
        ...encoding,
        y: {
          ...y,
          ...(y.scale?.domain && { scale: { ...y.scale, domain: [0, 1] } }),
          ...(y.axis?.title && { axis: { ...y.axis, title: ' ' } }),
        },
      },
    }),
    datasets: datasets && Object.fromEntries(Object.keys(datasets).map((name) => [name, []])),
  };
  const key = JSON.stringify(form);
  const kept = forms.get(key) ?? vega.parse(withPlaces(compileForm(form), ownOf(spec)));
  forms.delete(key);
  forms.set(key, kept);
  if (forms.size > FORMS_KEPT) forms.delete(forms.keys().next().value as string);
  return kept;
}

/** The compiled form with a signal wherever charts of it have something of their own. */
function withPlaces(compiled: vega.Spec, own: Readonly<Record<string, unknown>>): vega.Spec {
  const named = new Set(compiled.signals?.map((s) => s.name));
  const place = (signal: string) => (signal in own ? { signal } : undefined);
  return {
    ...compiled,
    signals: [
      ...(compiled.signals ?? []),
      ...Object.keys(own).flatMap((name) => (named.has(name) ? [] : [{ name, value: null }])),
    ],
    ...(own.titleText !== undefined && {
      title: {
        ...(compiled.title as vega.Title),
        text: { signal: 'titleText' },
        subtitle: { signal: 'titleSubtitle' },
      },
    }),
    scales: compiled.scales?.map((s) =>
      s.name === 'y' ? ({ ...s, domain: place('yDomain') ?? s.domain } as vega.Scale) : s,
    ),
    axes: compiled.axes?.map((a) =>
      a.scale === 'y' && a.title ? { ...a, title: place('yTitle') ?? a.title } : a,
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
  const view = new vega.View(formOf(spec), { renderer: 'none', logLevel: vega.Warn });
  view.logger({
    ...view.logger(),
    warn(...said: readonly unknown[]) {
      complaints.push(said.map(String).join(' '));
      return this;
    },
  } as vega.LoggerInterface);
  view.description(spec.description ?? '');
  for (const [name, value] of Object.entries(ownOf(spec))) view.signal(name, value);
  // Vega marks the rows it is given.
  for (const [name, rows] of Object.entries<readonly Row[]>(spec.datasets ?? {}))
    view.data(name, structuredClone(rows) as Row[]);
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
