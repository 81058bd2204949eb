/**
 * Charts: every specification compiles and draws without a warning, keeps its snapshot, carries units, names its
 * prediction level, tells left from right without colour and renders its letters from the fonts it ships.
 */
import { inflateSync } from 'node:zlib';
import { Resvg } from '@resvg/resvg-js';
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { describe, expect, it } from 'vitest';
import { capacityChart } from '../../src/charts/capacity-chart.js';
import { deviceTimeline } from '../../src/charts/device-timeline.js';
import { fillSpec, type Spec } from '../../src/charts/fill-spec.js';
import { growthChart } from '../../src/charts/growth-chart.js';
import { chartFonts, renderPng, renderSvg } from '../../src/charts/render-chart.js';
import { growthInput } from '../../src/forecast/growth-input.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { fitChild } from '../../src/growth/prediction/fit-child.js';
import { centileAt, forecasts, posterior, record, today } from './invented-child.js';

const base = { record, measure: 'foot_length', today, posterior, forecasts, centileAt } as const;
const loads = [5, 8, 12, 9, 7, 3, 0, 11, 9, 8, 10, 4];
const weeks = loads.map((load, i) => ({
  weekStart: new Date(Date.UTC(2026, 5, 15 + 7 * i)).toISOString().slice(0, 10),
  load,
  capacity: i === 6 ? 4 : 9,
}));

const timeline: Parameters<typeof deviceTimeline>[0] = {
  record: {
    ...record,
    events: [
      {
        id: 'e1',
        deviceId: 'afo-left',
        date: '2026-05-04',
        kind: 'adjusted',
        measure: null,
        side: null,
        changeMm: 2,
        endReason: null,
        adjustment: 'relief',
        verdict: null,
        note: '',
      },
    ],
  },
  forecasts,
  today,
  decisions: [{ deviceId: 'afo-left', castBy: '2026-09-10', reason: { code: 'fits-for-now', numbers: {} } }],
};

const charts: Record<string, Spec> = {
  growth: growthChart(base),
  'growth-unknown-sex': growthChart({
    ...base,
    record: { ...record, child: { ...record.child, sex: 'unknown' } },
    forecasts: [],
  }),
  'growth-one-visit': growthChart({
    ...base,
    record: { ...record, measurements: record.measurements.filter((m) => m.date > '2026-05-01') },
  }),
  'growth-never-measured': growthChart({
    ...base,
    record: { ...record, measurements: [], devices: [] },
    posterior: null,
    forecasts: [],
  }),
  'growth-no-reference': growthChart({
    ...base,
    centileAt: null,
    caution: 'Population charts do not suit this child.',
  }),
  family: growthChart({ ...base, audience: 'family', forecasts: forecasts.slice(0, 1) }),
  'family-spanish': growthChart({
    ...base,
    audience: 'family',
    language: 'es',
    forecasts: forecasts.slice(0, 1),
  }),
  'family-narrow': growthChart({
    ...base,
    audience: 'family',
    language: 'uk',
    forecasts: forecasts.slice(0, 1),
    widthPx: 250,
  }),
  'growth-narrow': growthChart({ ...base, widthPx: 250 }),
  timeline: deviceTimeline(timeline),
  'timeline-narrow': deviceTimeline({ ...timeline, widthPx: 250 }),
  capacity: capacityChart({ weeks }),
};

describe('every chart', () => {
  for (const [name, spec] of Object.entries(charts))
    it(`${name} draws without a warning and as in its snapshot`, async () => {
      await expect(await renderSvg(spec)).toMatchFileSnapshot(`../snapshots/charts/${name}.svg`);
    });

  it.each(['clinician', 'family'] as const)(
    'of a %s draws where the even chance lies past the forecast',
    async (audience) => {
      const late = forecasts.map((f) => ({ ...f, p50: null, p90: null }));
      await expect(renderSvg(growthChart({ ...base, audience, forecasts: late }))).resolves.toContain('<svg');
    },
  );

  it('draws the same twice', async () => {
    expect(await renderSvg(growthChart(base))).toBe(await renderSvg(growthChart(base)));
  });

  it('of a form kept before is the chart that Vega draws alone', async () => {
    const numbered = (svg: string) => {
      const ids: string[] = [];
      return svg.replace(/\b(?:clip|gradient_|c[0-9a-f]{8}-)\d+\b/g, (id) => {
        if (!ids.includes(id)) ids.push(id);
        return `id${ids.indexOf(id)}`;
      });
    };
    for (const spec of Object.values(charts)) {
      const other = structuredClone(spec);
      other.title.text = 'another';
      other.datasets = Object.fromEntries(
        Object.entries<object[]>(spec.datasets).map(([name, rows]) => [name, rows.toReversed()]),
      );
      for (const param of other.params ?? [])
        param.value = Object.fromEntries(Object.keys(param.value).map((side) => [side, 'elsewhere']));
      const { scale, axis } = other.encoding?.y ?? {};
      if (typeof scale?.domain?.[0] === 'number') scale.domain[0] -= 7;
      if (axis?.title) axis.title = 'elsewise';
      await renderSvg(spec);
      const alone = new vega.View(vega.parse(compile(other as TopLevelSpec).spec), { renderer: 'none' });
      expect(numbered(await renderSvg(other))).toBe(numbered(await alone.toSVG()));
    }
  });

  it('refuses a specification Vega-Lite warns of', async () => {
    const broken = structuredClone(charts.capacity);
    broken.layer[0].encoding.banana = broken.layer[0].encoding.y;
    await expect(renderSvg(broken)).rejects.toThrow(/Vega-Lite says/);
  });

  it('refuses a blank that nothing fills', () => {
    expect(() => fillSpec('capacity', {}, { parts: [], weeks: [] }, {})).toThrow(/blank "/);
  });
});

describe('growth chart', () => {
  it('names units, the level of the prediction, centiles and device limits', async () => {
    const svg = await renderSvg(charts.growth);
    for (const text of [
      'Foot length, mm',
      '80 % prediction',
      '50 (centile, girls)',
      '1 Solid AFO, left, cast 20 Jan 2026: full at 209 mm; outgrown Oct 2026 to Apr 2027',
    ])
      expect(svg).toContain(text);
  });

  it('writes the growth rate beside each curve, marks the day of the action, and never says now to now', async () => {
    const [left, right] = forecasts;
    const paced = { ...left, room: left.room.map((r) => ({ ...r, paceMmAYear: 11.6 })) };
    const past = { ...right, p10: '2025-11-01', p50: '2025-12-01', p90: '2026-01-10' };
    const spec = growthChart({
      ...base,
      forecasts: [paced, past],
      actions: [{ deviceId: left.deviceId, date: '2026-09-10', label: 'cast by' }],
    });
    const svg = await renderSvg(spec);
    expect(svg).toContain('Left: 12 mm a year expected');
    expect(svg).toContain('◆ cast by 10 Sept 2026');
    expect(spec.datasets.actions).toMatchObject([{ date: '2026-09-10' }]);
    expect(svg).toContain('outgrown since about Dec 2025');
    expect(svg).not.toContain('now to now');
  });

  it('never writes a bar’s number under the mark of its action', () => {
    const [left] = forecasts;
    const forecast = { ...left, p10: '2026-12-01', p50: '2027-01-15', p90: '2027-03-01' };
    for (const date of ['2026-10-20', '2026-11-15', '2026-11-28', '2026-12-01', '2026-12-10', '2027-01-20']) {
      const actions = [{ deviceId: left.deviceId, date, label: 'cast by' }];
      const { datasets } = growthChart({ ...base, forecasts: [forecast], actions });
      const [from, to] = datasets.frame.map((f: { date: string }) => Date.parse(f.date));
      const px = (day: string) => (720 * (Date.parse(day) - from)) / (to - from);
      // A figure of 7 px ends 6 px before its day; a mark of 150 square pixels is 12 px wide.
      const end = px(datasets.notes[0].date) - 6;
      const mark = px(datasets.actions[0].date);
      expect(end <= mark - 6 || end - 7 >= mark + 6, date).toBe(true);
    }
  });

  it('keeps the numbers of limits that lie on each other apart', () => {
    const [left] = forecasts;
    const same = ['a', 'b', 'c'].map((deviceId) => ({ ...left, deviceId }));
    const tags: Spec[] = growthChart({ ...base, forecasts: same }).datasets.limitLabels;
    const days = tags.map((t) => Date.parse(t.date)).toSorted((a, b) => a - b);
    expect(days).toHaveLength(3);
    for (const [i, day] of days.slice(1).entries()) expect(day - days[i]).toBeGreaterThan(20 * 86_400_000);
  });

  it('tells left from right by shape, line and hatching, not by colour alone', () => {
    expect(charts.growth.layer.some((l: Spec) => l.data.name === 'hatch')).toBe(true);
    const layer = (data: string) => charts.growth.layer.find((l: Spec) => l.data.name === data);
    expect(new Set(layer('marks').layer[0].encoding.shape.scale.range).size).toBe(2);
    const line = layer('joined');
    expect(line.encoding.strokeDash.scale.range[0]).not.toEqual(line.encoding.strokeDash.scale.range[1]);
  });

  it('does not draw a line through a long gap', () => {
    const marks = charts.growth.datasets.marks as { side: string; date: string; stretch: string }[];
    const left = marks.filter((m) => m.side === 'Left');
    expect(left.find((m) => m.date === '2024-05-21')?.stretch).not.toBe(
      left.find((m) => m.date === '2025-10-02')?.stretch,
    );
  });

  it('shows what was read of a size that nobody foresees, without a prediction', () => {
    const heel = record.measurements.map((m) => ({ ...m, measure: 'heel_width' as const }));
    const model = loadGrowthModel();
    const fitted = fitChild(growthInput(record, model), model);
    expect(fitted.kind === 'posterior' && fitted.posterior.knows('heel_width')).toBe(false);
    const asked = { ...base, measure: 'heel_width' as const, record: { ...record, measurements: heel } };
    const spec = growthChart({ ...asked, posterior: fitted.kind === 'posterior' ? fitted.posterior : null });
    expect(spec.description).toContain(`${heel.length} readings, without a prediction`);
  });

  it('shows a reading in doubt to the clinician, crossed out, and not to the family', () => {
    const at = (spec: Spec) =>
      (spec.datasets.marks as { date: string; side: string; doubted: boolean }[]).find(
        (m) => m.date === '2023-12-12' && (m.side === 'Right' || m.side === 'Derecha'),
      );
    expect(at(charts.growth)?.doubted).toBe(true);
    expect(at(charts.family)).toBeUndefined();
  });

  it('shows both references, and neither as the choice, where the sex is unknown', async () => {
    const svg = await renderSvg(charts['growth-unknown-sex']);
    expect(svg).toContain('boys 50');
    expect(svg).toContain('girls 50');
  });

  it('keeps centiles and z-scores from a family', async () => {
    expect(await renderSvg(charts.family)).not.toMatch(/centile|z-score|AFO/);
  });

  it('carries the fan it was given and no other (posterior quantiles at 10 and 90 %)', () => {
    const fan = charts.growth.datasets.fan as { date: string; low: number; high: number; side: string }[];
    const last = fan.filter((f) => f.side === 'Left').at(-1);
    const day = Date.parse(last?.date ?? '') / 86_400_000;
    const given = posterior.predict({ measure: 'foot_length', side: 'left' }, [day]);
    expect(last?.low).toBe(given.quantile(0.1)[0]);
    expect(last?.high).toBe(given.quantile(0.9)[0]);
  });
});

describe('pictures on a machine without fonts', () => {
  const inked = (text: string, fontFiles: string[]) => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="40"><text x="5" y="28" font-size="20" font-family="PT Sans, DejaVu Sans, sans-serif">${text}</text></svg>`;
    const { pixels } = new Resvg(svg, {
      background: '#fff',
      font: { loadSystemFonts: false, fontFiles },
    }).render();
    return pixels.filter((_, i) => i % 4 === 0 && pixels[i] < 128).length;
  };
  it('has letters, Arabic ones too, from the shipped fonts alone', () => {
    expect(inked('Foot 209', [])).toBe(0); // what a bare machine would draw without them
    expect(inked('Foot 209', Object.values(chartFonts))).toBeGreaterThan(100);
    expect(inked('طول القدم', Object.values(chartFonts))).toBeGreaterThan(100);
  });
  it('renders a PNG of the chart at twice its size', async () => {
    const png = await renderPng(charts.capacity);
    expect(png.subarray(1, 4).toString()).toBe('PNG');
    expect(png.readUInt32BE(16)).toBeGreaterThan(1400);
    const idat = png.indexOf('IDAT');
    expect(
      inflateSync(png.subarray(idat + 4, idat + 4 + png.readUInt32BE(idat - 4)), { finishFlush: 2 }).length,
    ).toBeGreaterThan(1e6);
  });
});

describe('colours', () => {
  type Rgb = readonly [number, number, number];
  const rgb = (hex: string): Rgb =>
    [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255) as unknown as Rgb;
  const linear = (c: number) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  const luminance = (colour: Rgb) => {
    const [r, g, b] = colour.map(linear);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  /** Contrast ratio of WCAG 2.2 (definition from memory): white on black is 21. */
  const contrast = (a: Rgb, b: Rgb) => {
    const [low, high] = [luminance(a), luminance(b)].toSorted((x, y) => x - y);
    return (high + 0.05) / (low + 0.05);
  };
  /** How whole loss of a cone looks: matrices of Machado, Oliveira and Fernandes 2009 on linear light, from memory. */
  const dichromat = {
    protan: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
    deutan: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
    tritan: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
  };
  const seen = (colour: Rgb, m: readonly number[]) => {
    const light = colour.map(linear);
    return [0, 3, 6].map((row) => light.reduce((sum, c, i) => sum + m[row + i] * c, 0));
  };
  const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((c, i) => c - b[i]));
  const white = rgb('#ffffff');
  const layer = (spec: Spec, data: string) => spec.layer.find((l: Spec) => l.data.name === data);
  const [left, right]: string[] = layer(charts.growth, 'joined').encoding.color.scale.range;

  it('are told from white paper by lines and letters (WCAG 2.2: 3 for a line, 4.5 for a letter)', () => {
    expect(contrast(white, rgb('#000000'))).toBeCloseTo(21, 5);
    for (const colour of [left, right]) expect(contrast(rgb(colour), white), colour).toBeGreaterThan(4.5);
    const letters = (node: unknown): string[] =>
      node && typeof node === 'object'
        ? [
            ...((node as Spec).mark?.type === 'text' && (node as Spec).mark.color
              ? [(node as Spec).mark.color]
              : []),
            ...Object.entries(node).flatMap(([key, inner]) => (key === 'datasets' ? [] : letters(inner))),
          ]
        : [];
    const all = Object.values(charts).flatMap(letters);
    expect(all.length).toBeGreaterThan(5);
    // White letters are only the halo under others.
    for (const colour of all.filter((c) => c !== '#ffffff'))
      expect(contrast(rgb(colour), white), colour).toBeGreaterThan(4.5);
  });

  it('keep left from right, and what does not fit from what does, for every kind of colour-blind eye and in grey', () => {
    const bars: string[] = layer(charts.capacity, 'parts').encoding.color.scale.range;
    for (const [a, b] of [[left, right], bars] as const) {
      for (const [eye, matrix] of Object.entries(dichromat))
        expect(apart(seen(rgb(a), matrix), seen(rgb(b), matrix)), `${a} ${b} ${eye}`).toBeGreaterThan(0.15);
      expect(contrast(rgb(a), rgb(b)), `${a} ${b} in grey`).toBeGreaterThan(1.5);
    }
  });
});

// Vega-Lite does not know the channel 'banana' and says so.
it('a chart that raises a warning is an error for whoever did not say what to do', async () => {
  const encoding = { banana: { field: 'a', type: 'quantitative' } };
  const warns = { $schema: charts.growth.$schema, data: { values: [{ a: 1 }] }, mark: 'point', encoding };
  await expect(renderSvg(warns as never)).rejects.toMatchObject({ code: 'chart-warning' });
});

describe('the timeline', () => {
  it('draws a device whose last date lies past the forecast to the edge, and no shorter', () => {
    const open = forecasts.map((f) => ({ ...f, p90: null }));
    const { spans, frame } = deviceTimeline({
      record: { ...record, events: [] },
      forecasts: open,
      today,
    }).datasets;
    const last = frame.at(-1).date;
    const outgrown = spans.filter((s: { stage: string }) => s.stage === 'outgrown here, 8 in 10');
    expect(outgrown.length).toBe(open.filter((f) => f.p10).length);
    expect(outgrown.map((s: { to: string }) => s.to)).toEqual(outgrown.map(() => last));
    for (const { p10, p50 } of open) expect(last > (p50 ?? p10 ?? '')).toBe(true);
  });
});
