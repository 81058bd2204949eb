import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import type { Spec } from '../../charts/fill-spec.js';
import { renderPng, renderSvg } from '../../charts/render-chart.js';
import { DoorpostError } from '../../errors.js';
import { measureId } from '../../records/measure.js';
import { chartableMeasures, growthSpec, timelineSpec } from '../child-view/child-charts.js';
import { loadChildFor } from '../child-view/load-child.js';
import type { ServiceDeps } from '../dependencies.js';
import { type Api, clinical, route } from './api.js';
import { file, id, idParams } from './schemas/common.js';

const tags = ['Charts'];
const format = z.enum(['json', 'svg', 'png']).describe('json: the Vega-Lite specification with its data');

export function chartsRoutes(api: Api, deps: ServiceDeps): void {
  api.get(
    '/children/:id/charts',
    route(
      clinical,
      tags,
      'Which charts this child has',
      { 200: z.object({ growth: z.array(measureId), timeline: z.boolean() }) },
      { params: idParams },
    ),
    async (request) => {
      const view = await loadChildFor(request, request.params.id, deps);
      return { growth: chartableMeasures(view), timeline: view.record.devices.length > 0 };
    },
  );

  api.get(
    '/children/:id/charts/growth/:measure',
    route(
      clinical,
      tags,
      'Growth chart of one measure: readings left and right, 80 % fan, device limits, centiles',
      { 200: file },
      {
        params: z.object({ id, measure: measureId }),
        querystring: z.object({ format: format.default('svg') }),
      },
    ),
    async (request, reply) => {
      const view = await loadChildFor(request, request.params.id, deps);
      if (!chartableMeasures(view).includes(request.params.measure))
        throw new DoorpostError('not-found', 'This child has no reading or device limit of this measure', {
          field: 'measure',
          given: request.params.measure,
          accepted: chartableMeasures(view).join(', ') || 'none yet',
        });
      const { growth } = (await deps.assessor.current()).live(view.record);
      const posterior = growth.kind === 'posterior' ? growth.posterior : null;
      const spec = growthSpec(view, request.params.measure, posterior, deps.clock.today());
      return sendChart(reply, spec, request.query.format);
    },
  );

  api.get(
    '/children/:id/charts/timeline',
    route(
      clinical,
      tags,
      'Every device on one time axis',
      { 200: file },
      { params: idParams, querystring: z.object({ format: format.default('svg') }) },
    ),
    async (request, reply) => {
      const view = await loadChildFor(request, request.params.id, deps);
      if (view.record.devices.length === 0)
        throw new DoorpostError('not-found', 'This child has no device to draw');
      return sendChart(reply, timelineSpec(view, deps.clock.today()), request.query.format);
    },
  );
}

async function sendChart(reply: FastifyReply, spec: Spec, as: z.output<typeof format>): Promise<never> {
  if (as === 'json') reply.type('application/vnd.vegalite.v6+json').send(JSON.stringify(spec));
  else if (as === 'svg') reply.type('image/svg+xml').send(await renderSvg(spec));
  else reply.type('image/png').send(await renderPng(spec));
  return reply as never;
}
