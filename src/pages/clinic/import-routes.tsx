import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { counted } from '../../records/counted.js';
import { writersOf } from '../../records/roles.js';
import { actorOf } from '../../service/access.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { ImportPlan } from '../../service/import-plan.js';
import { answerImport, planImport } from '../../service/plan-import.js';
import { type Fields, refusalOf } from '../parts/pages-of.js';
import { ImportPage } from './import-page.js';
import { ImportPlanPage } from './import-plan-page.js';
import { fieldOf } from './import-questions.js';
import { registerSheetAnswerPages } from './sheet-answers-routes.js';

const REFUSED_SHOWN = 200;
const dateOrders = ['refuse', 'dmy', 'mdy'] as const;
const units = ['mm', 'cm', 'inch'] as const;
type OneImport = { Params: { id: string }; Body: Fields };

export function registerImportPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, clock, jobs } = deps;
  const access = { config: { access: writersOf.files } };
  const reading = { store, uploads: app.uploads, refusedShown: REFUSED_SHOWN };
  const page = (id: string) => `/import/${encodeURIComponent(id)}`;
  const lists = async () => ({
    imports: await store.imports.latest(),
    runs: await store.jobRuns.latest('import'),
  });

  app.get('/import', access, async (_request, reply) =>
    reply.page(<ImportPage {...(await lists())} error="" />),
  );

  /** The dry run: says what would be added, changed and refused, and keeps it; nothing is written yet. */
  app.post('/import', { config: { access: writersOf.files, upload: true } }, async (request, reply) => {
    const { files, fields } = request.upload ?? { files: [], fields: {} as Fields };
    const refuse = async (error: string) =>
      reply.page(<ImportPage {...(await lists())} error={error} />, 422);
    if (files.length === 0) return refuse('No file was chosen. CSV, XLSX and FHIR JSON files are accepted.');
    try {
      const options = {
        today: clock.today(),
        dateOrder: dateOrders.find((d) => d === fields.dateOrder) ?? 'refuse',
        lengthUnit: units.find((u) => u === fields.lengthUnit) ?? null,
      };
      const { id } = await planImport(reading, files, options, actorOf(request));
      return reply.redirect(page(id), 303);
    } catch (error) {
      if (error instanceof DoorpostError && error.status < 500) return refuse(error.message);
      throw error;
    }
  });

  registerSheetAnswerPages(app, deps);

  app.get<OneImport>('/import/:id', access, async (request, reply) => {
    const { id, status, plan } = await store.imports.get(request.params.id);
    await store.audit.record(actorOf(request), 'read', 'import', {
      childIds: await store.imports.childIds(id),
      importId: id,
    });
    return reply.page(<ImportPlanPage id={id} status={status} plan={plan as ImportPlan} />);
  });

  app.post<OneImport>('/import/:id/answers', access, async (request, reply) => {
    const { id, status, plan } = await store.imports.get(request.params.id);
    const shown = plan as ImportPlan;
    const error = await refusalOf(
      answerImport(reading, id, answersIn(shown, request.body ?? {}), actorOf(request)),
    );
    if (!error) return reply.redirect(`${page(id)}?notice=reading-saved`, 303);
    return reply.page(<ImportPlanPage id={id} status={status} plan={shown} error={error} />, 422);
  });

  app.post<OneImport>('/import/:id/commit', access, async (request, reply) => {
    await jobs.startImport(request.params.id, actorOf(request));
    return reply.redirect('/import?notice=import-started', 303);
  });

  app.post<OneImport>('/import/:id/take-back', access, async (request, reply) => {
    const { id, plan, status } = await store.imports.get(request.params.id);
    let said = '';
    const error = await refusalOf(
      store.imports.takeBack(id, actorOf(request)).then(({ removed, stays }) => {
        said = `${counted(removed, 'record')} taken out. ${stays.map(({ why, count }) => `${count} ${why} stay.`).join(' ')}`;
      }),
    );
    const now = error ? status : 'taken-back';
    const shown = {
      ...(plan as ImportPlan),
      notices: said ? [said, ...(plan as ImportPlan).notices] : (plan as ImportPlan).notices,
    };
    return reply.page(<ImportPlanPage id={id} status={now} plan={shown} error={error} />, error ? 422 : 200);
  });
}

/** What the form answers: columns that were changed or asked, and questions with an answer. */
function answersIn(plan: ImportPlan, form: Fields) {
  const columns = plan.columns.flatMap(({ sheet, question, meaning }, at) => {
    const answer = form[fieldOf('column', at)] ?? '';
    return answer === '' || answer === meaning ? [] : [{ sheet, question, answer }];
  });
  const questions = plan.questions.flatMap(({ sheet, id }, at) => {
    const answer = form[fieldOf('question', at)] ?? '';
    return answer === '' ? [] : [{ sheet, question: id, answer }];
  });
  return [...columns, ...questions];
}
