import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { clinicians, everyone } from '../../records/roles.js';
import { findLimitProblems } from '../../rules/find-limit-problems.js';
import { limitReach } from '../../rules/limit-reach.js';
import { loadRules } from '../../rules/load-rules.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { fitRulesView } from '../../service/fit-rules-view.js';
import type { Fields } from '../parts/route-types.js';
import { FitRulesCheckPage } from './fit-rules-check-page.js';
import { FitRulesFamilyPage } from './fit-rules-family-page.js';
import { FitRulesPage } from './fit-rules-page.js';
import { readLimitChanges } from './read-limit-changes.js';

type Family = { Params: { family: string }; Querystring: Fields; Body: Fields };
const CHANGES_SHOWN = 30;
const MEANWHILE =
  'Somebody else changed the fit rules meanwhile. The figures below are the new ones: set yours again if they are still wanted.';

/** By what each device family counts as outgrown: read by all of the staff, set by clinicians (why: service/api/fit-rules-routes). */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of pages, each short
export function registerFitRulesPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, jobs } = deps;

  app.get('/fit-rules', { config: { access: everyone } }, async (_request, reply) => {
    const { value } = await fitRulesView(store);
    return reply.page(<FitRulesPage families={value} />);
  });

  const viewOf = async (id: string) => {
    const { value, version } = await fitRulesView(store);
    const family = value.find((f) => f.family === id);
    if (!family) throw new DoorpostError('not-found', 'There is no such device family');
    return { family, version };
  };

  const showFamily = async (
    request: FastifyRequest<Family>,
    reply: FastifyReply,
    typed: Readonly<Record<string, string>>,
    errors: Readonly<Record<string, string>>,
    status = 200,
  ) => {
    const { family, version } = await viewOf(request.params.family);
    const cursor = request.query.cursor || null;
    return reply.page(
      <FitRulesFamilyPage
        family={family}
        version={version}
        history={await store.fitLimits.history(family.family, { limit: CHANGES_SHOWN, cursor })}
        maySet={request.user?.role === 'clinician'}
        typed={typed}
        errors={errors}
      />,
      status,
    );
  };

  app.get<Family>('/fit-rules/:family', { config: { access: everyone } }, (request, reply) =>
    showFamily(request, reply, {}, {}),
  );

  app.post<Family>('/fit-rules/:family', { config: { access: clinicians } }, async (request, reply) => {
    const typed = Object.fromEntries(
      Object.entries(request.body ?? {}).map(([k, v]) => [k, String(v ?? '')]),
    );
    const { family, version } = await viewOf(request.params.family);
    if (typed.version !== String(version))
      return showFamily(request, reply, { reason: typed.reason ?? '' }, { '': MEANWHILE }, 412);
    const { changes, reason, errors } = readLimitChanges(typed, family);
    const { value: current } = await store.fitLimits.current();
    const shipped = loadRules();
    const problems = Object.fromEntries(
      findLimitProblems(shipped, current, changes).map(({ change, why, accepted }) => [
        `${changes[change].measure}.${changes[change].figure}`,
        `${why}. Accepted: ${accepted}`,
      ]),
    );
    const all = { ...problems, ...errors };
    if (Object.keys(all).length > 0) return showFamily(request, reply, typed, all, 422);
    if (typed.confirmed !== 'yes')
      return reply.page(
        <FitRulesCheckPage
          family={family}
          version={version}
          changes={changes}
          devices={limitReach(shipped, await store.fitLimits.devicesInUse(), changes)}
          reason={reason}
        />,
      );
    return reply.save(async (tx, actor) => {
      await tx.fitLimits.change(changes, version, actor);
      await jobs.startForecasts(tx);
      return `/fit-rules/${encodeURIComponent(family.family)}?notice=fit-rules-saved`;
    });
  });
}
