/**
 * What routes and pages are given, so that no handler reaches for a clock, a connection or the environment.
 *
 * A plugin is `export async function registerPages(app: FastifyInstance, deps: ServiceDeps): Promise<void>`.
 *
 * Who may use a route is said on the route and checked before its handler; a route that does not say it stops the
 * start of the server:
 *
 *   app.get('/children', { config: { access: ['clinician', 'scheduler'] } }, async (request, reply) => {
 *     const actor = actorOf(request);            // who is signed in; hand it to every store method
 *     const page = await deps.store.children.search({ text: '' }, { limit: 50 }, actor);
 *     return reply.type('text/html; charset=utf-8').send(render(page, reply.csrfToken()));
 *   });
 *
 * - `access: 'public'` needs no sign-in (sign-in page, assets, a family's page by its link, /health).
 * - Without sign-in a page asked for as text/html is redirected to /sign-in?then=..., an API call gets 401 problem+json.
 * - `request.user` is `SignedInUser | null`. A form that writes carries `<input type="hidden" name="_csrf" value={token}>`
 *   with `token = reply.csrfToken()`; a script sends the same value in the header `x-csrf-token`. Checked before the handler.
 * - Sign in and out from a page: `await signInSession(request, user)` / `await signOutSession(request)` (src/service/session.ts).
 * - Forms (application/x-www-form-urlencoded) are parsed to request.body; static assets are the pages' own business.
 * - A thrown DoorpostError becomes problem+json for the API and, for a page, the pages' error view if it sets its own
 *   error handler in its plugin scope.
 * - Every GET of a child's page audits itself through the store method it calls.
 */
import type { IsoDate } from '../records/dates.js';
import type { Actor, Role, Store, StoredAssessment } from '../store/contract.js';
import type { Assessor } from './assessor.js';
import type { Clock } from './clock.js';
import type { Configuration } from './configuration.js';

export interface SignedInUser {
  readonly id: string;
  /** Sign-in name. */
  readonly name: string;
  readonly displayName: string;
  readonly role: Role;
  readonly passwordByOther: boolean;
}

export type Access = readonly Role[] | 'public';

export interface Jobs {
  /** Puts the work in the queue and gives its job-run id (progress: store.jobRuns.get). One at a time of a kind. */
  startForecasts(within?: Store): Promise<string>;
  /** The list of a month, or of today and the weeks ahead where none is chosen. */
  startRecallRun(month: IsoDate | null): Promise<string>;
  startImport(importId: string, actor: Actor, within?: Store): Promise<string>;
}

export interface ServiceDeps {
  readonly config: Configuration;
  readonly store: Store;
  readonly clock: Clock;
  readonly jobs: Jobs;
  /** Growth and forecasts of a record at hand, for charts and what-if. */
  readonly assessor: Assessor;
  /**
   * Forecasts, flags and suggestions of one child as of today: the stored ones when nothing they were computed from
   * has changed, else computed now (and stored).
   */
  assess(childId: string): Promise<StoredAssessment>;
  /** Demo sign-ins to show on the sign-in page, empty outside the demo. */
  readonly demoSignIns: readonly { readonly name: string; readonly password: string; readonly role: Role }[];
}
