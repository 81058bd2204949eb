import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { actorOf } from '../../service/access.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { planImport } from '../../service/plan-import.js';
import { pageContext, sendPage } from '../parts/page-context.js';
import { administrators, type Form } from '../parts/route-types.js';
import { ImportPage, ImportPlanPage } from './import-page.js';

const REFUSED_SHOWN = 200;
const dateOrders = ['refuse', 'dmy', 'mdy'] as const;
const units = ['mm', 'cm', 'inch'] as const;

export function registerImportPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock, jobs } = deps;
  const access = { config: { access: administrators } };

  app.get('/import', access, async (request, reply) => {
    const [context, runs] = await Promise.all([
      pageContext(request, reply, deps),
      store.jobRuns.latest('import'),
    ]);
    return sendPage(reply, <ImportPage context={context} runs={runs} error="" />);
  });

  /** The dry run: says what would be added, changed and refused, and keeps it; nothing is written yet. */
  app.post('/import', { config: { access: administrators, upload: true } }, async (request, reply) => {
    const { files, fields } = request.upload ?? { files: [], fields: {} as Form };
    const context = await pageContext(request, reply, deps);
    const refuse = async (error: string) =>
      sendPage(
        reply,
        <ImportPage context={context} runs={await store.jobRuns.latest('import')} error={error} />,
        422,
      );
    if (files.length === 0) return refuse('No file was chosen. CSV, XLSX and FHIR JSON files are accepted.');
    try {
      const options = {
        today: clock.today(),
        dateOrder: dateOrders.find((d) => d === fields.dateOrder) ?? 'refuse',
        lengthUnit: units.find((u) => u === fields.lengthUnit) ?? null,
      };
      const { id, plan } = await planImport(
        store,
        app.uploads,
        files,
        options,
        REFUSED_SHOWN,
        actorOf(request),
      );
      return sendPage(reply, <ImportPlanPage context={context} id={id} plan={plan} />);
    } catch (error) {
      if (error instanceof DoorpostError && error.status < 500) return refuse(error.message);
      throw error;
    }
  });

  app.post<{ Params: { id: string } }>('/import/:id/commit', access, async (request, reply) => {
    await jobs.startImport(request.params.id, actorOf(request));
    return reply.redirect('/import?notice=import-started', 303);
  });
}
