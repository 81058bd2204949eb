import { z } from 'zod';
import type { Spec } from '../../charts/fill-spec.js';
import { renderPng, renderSvg } from '../../charts/render-chart.js';
import { DoorpostError } from '../../errors.js';
import { measureId } from '../../records/measure.js';
import { chartableMeasures, growthSpec, timelineSpec } from '../child-view/child-charts.js';
import { loadChildFor, posteriorOf } from '../child-view/load-child.js';
import type { ServiceDeps } from '../dependencies.js';
import { type Api, clinical, routesOf, sentAs } from './api.js';
import { file, id } from './schemas/common.js';

const format = z.enum(['json', 'svg', 'png']).describe('json: the Vega-Lite specification with its data');
const querystring = z.object({ format: format.default('svg') });

export function chartsRoutes(api: Api, deps: ServiceDeps): void {
  const { get } = routesOf(api, deps, ['Charts']);
  get(
    '/children/:id/charts',
    clinical,
    'Which charts this child has',
    { 200: z.object({ growth: z.array(measureId), timeline: z.boolean() }) },
    async ({ request, id }) => {
      const view = await loadChildFor(request, id, deps);
      return { growth: chartableMeasures(view), timeline: view.record.devices.length > 0 };
    },
  );
  get(
    '/children/:id/charts/growth/:measure',
    clinical,
    'Growth chart of one measure: readings left and right, 80 % fan, device limits, centiles',
    { params: z.object({ id, measure: measureId }), querystring, 200: file },
    async ({ request, params: { id, measure }, query, today }) => {
      const view = await loadChildFor(request, id, deps);
      if (!chartableMeasures(view).includes(measure))
        throw new DoorpostError('not-found', 'This child has no reading or device limit of this measure', {
          field: 'measure',
          given: measure,
          accepted: chartableMeasures(view).join(', ') || 'none yet',
        });
      return drawnAs(growthSpec(view, measure, posteriorOf(view.record, deps), today), query.format);
    },
  );
  get(
    '/children/:id/charts/timeline',
    clinical,
    'Every device on one time axis',
    { querystring, 200: file },
    async ({ request, id, query, today }) => {
      const view = await loadChildFor(request, id, deps);
      if (view.record.devices.length === 0)
        throw new DoorpostError('not-found', 'This child has no device to draw');
      return drawnAs(timelineSpec(view, today), query.format);
    },
  );
}

async function drawnAs(spec: Spec, as: z.output<typeof format>) {
  if (as === 'json') return sentAs(JSON.stringify(spec), 'application/vnd.vegalite.v6+json');
  if (as === 'svg') return sentAs(await renderSvg(spec), 'image/svg+xml');
  return sentAs<string>(await renderPng(spec), 'image/png');
}
