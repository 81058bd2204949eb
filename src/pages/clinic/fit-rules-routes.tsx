import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type { MeasureId } from '../../records/measure.js';
import { clinicians, everyone } from '../../records/roles.js';
import { type LimitChange, limitChange } from '../../rules/clinic-limits.js';
import { findLimitProblems } from '../../rules/find-limit-problems.js';
import { limitReach } from '../../rules/limit-reach.js';
import { loadRules } from '../../rules/load-rules.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { type FamilyView, fitRulesView } from '../../service/fit-rules-view.js';
import { typedSize } from '../child/typed-size.js';
import { type Asked, type Fields, pagesOf } from '../parts/pages-of.js';
import { FitRulesCheckPage } from './fit-rules-check-page.js';
import { FitRulesFamilyPage } from './fit-rules-family-page.js';
import { FitRulesPage } from './fit-rules-page.js';

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
        {...{ family, version, typed, errors }}
        history={await store.fitLimits.history(family.family, { limit: CHANGES_SHOWN, cursor })}
        maySet={actor.role === 'clinician'}
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

/** What a submitted form changes of a family's figures; a field left as it was, or left out, changes nothing. */
function readLimitChanges(form: Fields, family: FamilyView) {
  const errors: Record<string, string> = {};
  const changes: LimitChange[] = [];
  const reason = (form.reason ?? '').trim();
  const shown = family.dimensions.flatMap(({ measure, figures }) => figures.map((f) => ({ measure, ...f })));
  for (const { measure, figure, mm: stands, clinic } of shown) {
    const name = `${measure}.${figure}`;
    const mm = form[`back.${name}`] === 'yes' && clinic ? null : typedMm(form[name], measure);
    if (Number.isNaN(mm)) errors[name] = 'No size. Accepted: a number of mm such as 7.5';
    else if (mm !== undefined && mm !== stands)
      changes.push({ family: family.family, measure, figure, mm, reason });
  }
  if (changes.length === 0 && Object.keys(errors).length === 0)
    return { changes, reason, errors: { '': 'No figure was changed.' } };
  if (!limitChange.shape.reason.safeParse(reason).success)
    errors.reason = 'Say why, in 4 to 400 characters: an audit, a paper, a judgement.';
  return { changes, reason, errors };
}

/** Undefined where nothing was sent, not a number where it is no size. */
const typedMm = (text: string | undefined, measure: MeasureId): number | undefined =>
  text === undefined ? undefined : (typedSize(text, measure, 'mm') ?? Number.NaN);
