import type { FastifyInstance } from 'fastify';
import { growthChart } from '../../charts/growth-chart.js';
import { assessChild, type ChildAssessment } from '../../forecast/assess-child.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import { imaginedRecord, isImagined } from '../../forecast/imagined-record.js';
import { plainSeries } from '../../forecast/words.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import { deviceOf } from '../../records/device-of.js';
import { measures } from '../../records/measure.js';
import { clinicians } from '../../records/roles.js';
import { loadChildFor, posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { drawFor } from '../parts/chart.js';
import { readerFormat } from '../parts/page-context.js';
import { type Asked, pagesOf } from '../parts/pages-of.js';
import { type ExpectedSize, expectedSizes, expectedText } from './expected-sizes.js';
import { RoomPage } from './room-page.js';
import { monthsAsked, oddsAsked, pairOf, roomTable, usually } from './room-table.js';
import { dimensionsOf, type ReadWhatIf, readWhatIf } from './what-if-several.js';
import { WhatIfSeveralPage } from './what-if-several-page.js';

/** Further from its expectation than this many standard deviations an imagined reading is worth a word. */
const DOUBT_BEYOND_SD = 4;

/** Questions about dates that change nothing: how much room the next cast needs, or several things at once. */
export function registerWhatIfPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { get } = pagesOf(app, deps);

  const opened = async ({ request, id, query }: Asked) => {
    const [view, { context: using }] = await Promise.all([
      loadChildFor(request, id, deps),
      deps.assessor.current(),
    ]);
    const device = deviceOf(view.record, query.device);
    return { view, device, using, inUse: view.inUse.find((v) => v.device.id === device.id) };
  };

  get('/children/:id/what-if/next', clinicians, async (asked) => {
    const { query, today } = asked;
    const { view, device, using } = await opened(asked);
    const { record, inUse, assessment } = view;
    const { rules, model } = using;
    const { measurements } = record;
    const pair = pairOf(device, inUse);
    const posterior = posteriorOf(record, deps);
    const { birthDate } = record.child;
    const growth = posterior && { posterior, model, measurements };
    const rows = growth ? roomTable(growth, pair, rules, birthDate, today, assessment.seed) : [];
    return (
      <RoomPage
        child={record.child}
        device={device}
        devices={pair.map((v) => v.device)}
        rows={rows}
        months={monthsAsked.find((m) => String(m) === query.months) ?? usually.months}
        odds={oddsAsked.find((p) => String(p) === query.odds) ?? usually.odds}
      />
    );
  });

  get('/children/:id/what-if/several', clinicians, async (asked) => {
    const { request, reply } = asked;
    const { view, device, using, inUse } = await opened(asked);
    const { record } = view;
    const rule = using.rules.get(device.family);
    const dimensions = rule ? dimensionsOf(rule, device, record.child.birthDate) : [];
    const read = readWhatIf(asked.query, dimensions, using.today);
    const { on } = read.imagined;
    const expected = expectedSizes(record, posteriorOf(record, deps), on);
    const faulty = Object.keys(read.errors).length > 0;
    const imagined = read.asks && !faulty ? imaginedRecord(record, device, read.imagined) : null;
    const assessed = imagined && assessChild(imagined, { ...using, today: on });
    const then = assessed?.forecasts.find((f) => f.deviceId === device.id) ?? null;
    const chart =
      imagined &&
      assessed &&
      then &&
      (await chartOf(request, imagined, assessed.growth, then, [using.today, on]));
    return reply.page(
      <WhatIfSeveralPage
        {...{ device, dimensions, read, expected, then, chart }}
        child={record.child}
        now={inUse?.forecast ?? null}
        doubts={assessed ? doubtsOf(read, expected, assessed, await readerFormat(request, deps)) : []}
      />,
      faulty ? 422 : 200,
    );
  });
}

/** The growth chart of what limits the device first, as it would stand on the day asked for. */
async function chartOf(
  request: Asked['request'],
  record: ChildRecord,
  growth: ChildAssessment['growth'],
  then: DeviceForecast,
  [today, on]: readonly [today: IsoDate, on: IsoDate],
) {
  const measure = (then.drivers[0] ?? then.room[0])?.series.measure;
  if (measure === undefined) return null;
  const drawn = await drawFor(request, (widthPx) =>
    growthChart({
      record,
      measure,
      today: on,
      posterior: growth.kind === 'posterior' ? growth.posterior : null,
      forecasts: [then],
      centileAt: null,
      ...(on > today && { todayLabel: 'day asked for' }),
      title: `What if: ${measures[measure].label.toLowerCase()}, which limits it first`,
      widthPx,
    }),
  );
  return drawn && { drawn, measure };
}

/** Imagined readings that are far from what is expected or look like a slip. */
function doubtsOf(
  read: ReadWhatIf,
  expected: readonly ExpectedSize[],
  assessed: ChildAssessment,
  format: Parameters<typeof expectedText>[1],
): string[] {
  const far = read.imagined.readings.flatMap(({ series, value }) => {
    const size = expected.find((e) => e.measure === series.measure && e.side === series.side);
    if (!size || size.expected === null || size.sd === null) return [];
    if (Math.abs(value - size.expected) <= DOUBT_BEYOND_SD * size.sd) return [];
    return [
      `${plainSeries(series)}: ${format.number(value)} ${measures[series.measure].unit} is far from what is expected (${expectedText(size, format)}). The forecast trusts such a reading little.`,
    ];
  });
  const slips = assessed.suggestions.filter((s) => s.measurementIds.some(isImagined)).map((s) => s.seen);
  return [...far, ...slips];
}
