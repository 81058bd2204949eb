import { z } from 'zod';
import { limitChange } from '../../rules/clinic-limits.js';
import { type ClinicRulesJson, clinicRulesJson } from '../../rules/clinic-rules.js';
import { limitChangeRow } from '../../store/contract.js';
import type { ServiceDeps } from '../dependencies.js';
import { familyView, fitRulesView } from '../fit-rules-view.js';
import { type Api, clinical, routesOf, sentAs, signedIn, tagged } from './api.js';
import { itemsOf, listOf, pageOf, pageQuery, shapeOf } from './schemas/common.js';

const MOST_CHANGES = 200;

/**
 * The clinic's own limits. Everybody on the staff may read by what devices are judged; only a clinician sets it: when a
 * device counts as outgrown is a clinical judgement, as is a verdict on its fit, and an administrator makes neither.
 */
export function fitRulesRoutes(api: Api, deps: ServiceDeps): void {
  const { store, jobs } = deps;
  const { get, write } = routesOf(api, deps, ['Fit rules']);

  get(
    '/fit-rules',
    signedIn,
    'By what each family counts as outgrown: shipped figures, the clinic’s own, and whom they touch',
    { 200: itemsOf(familyView) },
    async () => {
      const { value, version } = await fitRulesView(store);
      return tagged({ value: { items: value }, version });
    },
  );
  write(
    'PATCH /fit-rules',
    clinical,
    'Set figures of the clinic’s own, or go back to the shipped ones; all or none',
    {
      description:
        'A changed figure changes every forecast of its family: they are computed anew by the job named in the ' +
        'answer. Answers with the families that were touched. The clinic is responsible for its own limits: a ' +
        'licensed practitioner must have agreed to them.',
      body: z.strictObject({ changes: z.array(limitChange).min(1).max(MOST_CHANGES) }),
      200: z.object({
        items: listOf(familyView),
        jobRunId: z.string().describe('Progress: GET /api/jobs/{jobRunId}'),
      }),
    },
    async ({ tx, body: { changes }, expected, actor }) => {
      await tx.fitLimits.change(changes, expected, actor);
      const jobRunId = await jobs.startForecasts(tx);
      const { value, version } = await fitRulesView(tx);
      const items = value.filter((f) => changes.some((c) => c.family === f.family));
      return tagged({ value: { items, jobRunId }, version });
    },
  );
  get(
    '/fit-rules/changes',
    signedIn,
    'Who set which figure when and why, newest first; nothing is ever removed',
    { querystring: pageQuery.extend({ family: z.string().max(60).optional() }), 200: pageOf(limitChangeRow) },
    ({ query: { family, ...page } }) => store.fitLimits.history(family ?? null, page),
  );
  get(
    '/fit-rules/file',
    signedIn,
    'The clinic’s own figures as a file of rules, as `doorpost forecast --rules FILE` takes it',
    {
      200: listOf(
        shapeOf<ClinicRulesJson[number]>({ id: z.string(), dimensions: listOf(z.looseObject({})) }),
      ),
    },
    async () => {
      const { value } = await store.fitLimits.current();
      return sentAs(clinicRulesJson(value), 'application/json; charset=utf-8', 'fit-rules.json');
    },
  );
}
