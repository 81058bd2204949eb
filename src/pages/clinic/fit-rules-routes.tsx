import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import { clinicians, everyone } from '../../records/roles.js';
import { findLimitProblems } from '../../rules/find-limit-problems.js';
import { limitReach } from '../../rules/limit-reach.js';
import { loadRules } from '../../rules/load-rules.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { fitRulesView } from '../../service/fit-rules-view.js';
import { type Asked, pagesOf } from '../parts/pages-of.js';
import { FitRulesCheckPage } from './fit-rules-check-page.js';
import { FitRulesFamilyPage } from './fit-rules-family-page.js';
import { FitRulesPage } from './fit-rules-page.js';
import { readLimitChanges } from './read-limit-changes.js';

type Words = Readonly<Record<string, string>>;
const CHANGES_SHOWN = 30;
const MEANWHILE =
  'Somebody else changed the fit rules meanwhile. The figures below are the new ones: set yours again if they are still wanted.';

/** By what each device family counts as outgrown: read by all of the staff, set by clinicians (why: service/api/fit-rules-routes). */
export function registerFitRulesPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { store, jobs } = deps;
  const { get, post } = pagesOf(app, deps);

  get('/fit-rules', everyone, async () => <FitRulesPage families={(await fitRulesView(store)).value} />);

  const viewOf = async (id: string) => {
    const { value, version } = await fitRulesView(store);
    const family = value.find((f) => f.family === id);
    if (!family) throw new DoorpostError('not-found', 'There is no such device family');
    return { family, version };
  };

  const familyPage = async ({ params, query, actor }: Asked, typed: Words, errors: Words) => {
    const { family, version } = await viewOf(params.family);
    const cursor = query.cursor || null;
    return (
      <FitRulesFamilyPage
        family={family}
        version={version}
        history={await store.fitLimits.history(family.family, { limit: CHANGES_SHOWN, cursor })}
        maySet={actor.role === 'clinician'}
        typed={typed}
        errors={errors}
      />
    );
  };

  get('/fit-rules/:family', everyone, (asked) => familyPage(asked, {}, {}));

  post('/fit-rules/:family', clinicians, async (asked) => {
    const { reply } = asked;
    const typed = Object.fromEntries(Object.entries(asked.body).map(([k, v]) => [k, String(v ?? '')]));
    const { family, version } = await viewOf(asked.params.family);
    const again = async (kept: Words, errors: Words, status: number) =>
      reply.page(await familyPage(asked, kept, errors), status);
    if (typed.version !== String(version))
      return again({ reason: typed.reason ?? '' }, { '': MEANWHILE }, 412);
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
    if (Object.keys(all).length > 0) return again(typed, all, 422);
    if (typed.confirmed !== 'yes') {
      const devices = limitReach(shipped, await store.fitLimits.devicesInUse(), changes);
      return reply.page(<FitRulesCheckPage {...{ family, version, changes, devices, reason }} />);
    }
    return reply.save(async (tx, actor) => {
      await tx.fitLimits.change(changes, version, actor);
      await jobs.startForecasts(tx);
      return `/fit-rules/${encodeURIComponent(family.family)}?notice=fit-rules-saved`;
    });
  });
}
