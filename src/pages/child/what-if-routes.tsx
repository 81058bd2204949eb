import type { FastifyInstance } from 'fastify';
import { deviceOf } from '../../records/device-of.js';
import { clinicians } from '../../records/roles.js';
import { loadChildFor, posteriorOf } from '../../service/child-view/load-child.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { pagesOf } from '../parts/pages-of.js';
import { RoomPage } from './room-page.js';
import { monthsAsked, oddsAsked, pairOf, roomTable, usually } from './room-table.js';

/** How much room the next cast needs to last: a question that changes nothing. */
export function registerWhatIfPage(app: FastifyInstance, deps: ServiceDeps): void {
  pagesOf(app, deps).get('/children/:id/what-if/next', clinicians, async ({ request, id, query, today }) => {
    const [{ record, inUse, assessment }, { context }] = await Promise.all([
      loadChildFor(request, id, deps),
      deps.assessor.current(),
    ]);
    const { rules, model } = context;
    const { measurements } = record;
    const device = deviceOf(record, query.device);
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
}
