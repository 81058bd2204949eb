/** A filled specification to SVG and PNG, on a machine with neither browser nor fonts. */
import { createHash } from 'node:crypto';
import { createRequire } from 'node:module';
import { renderAsync } from '@resvg/resvg-js';
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { DoorpostError } from '../errors.js';
import { lastUsed } from '../statistics/last-used.js';
import type { Row, Spec } from './fill-spec.js';
import { slimSvg } from './slim-svg.js';

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
const forms = lastUsed<vega.Runtime>(400);

/** What differs between charts of one form beside rows and params: where it stands, and where its signal goes. */
const places: readonly {
  readonly signal: string;
  readonly at: readonly [string, ...string[]];
  readonly blank: unknown;
  put(compiled: vega.Spec, signal: vega.SignalRef): void;
}[] = [
  {
    signal: 'titleText',
    at: ['title', 'text'],
    blank: ' ',
    put: ({ title }, text) => Object.assign(title as object, { text }),
  },
  {
    signal: 'titleSubtitle',
    at: ['title', 'subtitle'],
    blank: ' ',
    put: ({ title }, subtitle) => Object.assign(title as object, { subtitle }),
  },
  {
    signal: 'yDomain',
    at: ['encoding', 'y', 'scale', 'domain'],
    blank: [0, 1],
    put({ scales }, domain) {
      for (const s of scales ?? []) if (s.name === 'y') Object.assign(s, { domain });
    },
  },
  {
    signal: 'yTitle',
    at: ['encoding', 'y', 'axis', 'title'],
    blank: ' ',
    put({ axes }, title) {
      for (const a of axes ?? []) if (a.scale === 'y' && a.title) Object.assign(a, { title });
    },
  },
];
const within = (spec: Spec, path: readonly string[]) => path.reduce((part, name) => part?.[name], spec);
const placesIn = (spec: Spec) => places.filter(({ at }) => within(spec, at));

/** A picture's own, by the name of the signal it is given through. */
const ownOf = (spec: Spec): readonly (readonly [signal: string, value: unknown])[] => [
  ...(spec.params ?? []).map((p: Spec) => [p.name, p.value]),
  ...placesIn(spec).map(({ signal, at }) => [signal, within(spec, at)]),
];

/**
 * A specification's form, compiled and parsed once. Charts that differ in their rows, params, words and extent alone have
 * one; what is their own they are given in `drawSvg`.
 */
function formOf(spec: Spec): vega.Runtime {
  const form: Spec = structuredClone({
    ...spec,
    description: '',
    ...(spec.params && { params: spec.params.map((p: Spec) => ({ ...p, value: null })) }),
    datasets: spec.datasets && Object.fromEntries(Object.keys(spec.datasets).map((name) => [name, []])),
  });
  for (const { at, blank } of placesIn(spec)) within(form, at.slice(0, -1))[at.at(-1)!] = blank;
  return forms(JSON.stringify(form), () => vega.parse(withPlaces(compileForm(form), spec)));
}

/** The compiled form with a signal wherever charts of it have something of their own. */
function withPlaces(compiled: vega.Spec, spec: Spec): vega.Spec {
  const named = new Set(compiled.signals?.map((s) => s.name));
  const missing = ownOf(spec).filter(([name]) => !named.has(name));
  for (const { signal, put } of placesIn(spec)) put(compiled, { signal });
  return {
    ...compiled,
    signals: [...(compiled.signals ?? []), ...missing.map(([name]) => ({ name, value: null }))],
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

type Way = (spec: Spec, slim: boolean) => Promise<string>;
/** On the spot; `slim` as a page shows it. */
export const drawHere: Way = async (spec, slim) => (slim ? slimSvg(await drawSvg(spec)) : drawSvg(spec));
let draw = drawHere;
/** Another way of drawing, see draw-aside.ts. */
export function drawChartsBy(way: Way): void {
  draw = way;
}
export const renderSvg = (spec: Spec): Promise<string> => draw(spec, false);
/** For a page that says beside it what it shows. */
export const renderSlimSvg = (spec: Spec): Promise<string> => draw(spec, true);

/** Hands on what a chart drawn elsewhere warned of. */
export const chartWarning = (words: string): void => onWarning(words);

async function drawSvg(spec: Spec): Promise<string> {
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
  for (const [name, value] of ownOf(spec)) view.signal(name, value);
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

export const renderPng = async (spec: Spec): Promise<Buffer> => pngOf(await renderSvg(spec));

/** A picture drawn already, in a thread of its own: a page of it takes longer than to draw it. */
export async function pngOf(svg: string): Promise<Buffer> {
  const image = await renderAsync(svg, {
    background: '#ffffff',
    // Twice as large suits print and dense screens.
    fitTo: { mode: 'zoom', value: 2 },
    font: {
      loadSystemFonts: false,
      fontFiles: Object.values(chartFonts),
      defaultFontFamily: 'PT Sans',
      sansSerifFamily: 'DejaVu Sans',
    },
  });
  return image.asPng();
}
