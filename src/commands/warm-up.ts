import { buildService } from '../app.js';
import { overviewCounts } from '../pages/clinic/overview-counts.js';
import { assessedAsOf } from '../service/assessor.js';
import type { ServiceDeps } from '../service/dependencies.js';
import { CONNECTIONS } from '../store/connect.js';
import type { Store } from '../store/contract.js';

/** So long a start may take for it, on a busy machine; what is not warm by then gets so by being used. */
const SECONDS = 10;
const CHILDREN = 40;
/** The lists are pages everybody asks for: made once in so many children. */
const LISTS_EVERY = 4;
const MINUTE_MS = 60_000;
const COUNTED_EVERY_MS = 10 * MINUTE_MS;

class NotKept extends Error {}

/**
 * Before the doors open: what the first fifty people of a morning would all wait for at once. Connections are opened, what
 * is kept of the whole clinic is read, and pages of some of its children are made, so that their code is compiled and
 * their charts' forms are known. That is done in a transaction which is never kept: nobody has seen these pages, so the
 * access log does not say so.
 */
export async function warmUp(deps: ServiceDeps): Promise<void> {
  const { store } = deps;
  const connected = Array.from({ length: CONNECTIONS }, () => store.ready());
  const counted = overviewCounts(deps)();
  const pages = store.transaction(async (tx) => {
    await makePages(deps, tx, Date.now() + SECONDS * 1000);
    throw new NotKept();
  });
  const late = new Promise<void>((resolve) => {
    setTimeout(resolve, SECONDS * 1000).unref();
  });
  // A count of very many goes on behind the first requests; what failed here is said to who asks for it.
  await Promise.allSettled([...connected, pages, Promise.race([counted, late])]);
}

/** From now on the overview's counts are at hand also where nobody has asked since the night. Gives back how to end it. */
export function keepCounted(deps: ServiceDeps): () => void {
  const timer = setInterval(() => overviewCounts(deps)().catch(() => {}), COUNTED_EVERY_MS);
  timer.unref();
  return () => clearInterval(timer);
}

async function makePages(deps: ServiceDeps, tx: Store, until: number): Promise<void> {
  const { store, clock, config, assessor } = deps;
  const reader = (await store.users.list()).find((u) => u.role === 'clinician' && !u.disabled);
  const ids = await store.caseload.ids();
  if (!reader || ids.length === 0) return;
  const token = await tx.accessTokens.create(reader.id, new Date(clock.now().getTime() + MINUTE_MS));
  // What everybody shares is read by the service's own store, which keeps it.
  const { settings, signOffs, workshopJobs } = store;
  const { briefs, inUse } = store.recall;
  const within: Store = { ...tx, settings, signOffs, workshopJobs, recall: { ...tx.recall, briefs, inUse } };
  const app = await buildService({
    ...deps,
    config: { ...config, logLevel: 'silent', oidc: null, rateLimit: Number.MAX_SAFE_INTEGER },
    store: within,
    assess: async (id) => {
      const [record] = await tx.caseload.records([id]);
      const stored = await tx.forecasts.assessment(id);
      return assessedAsOf(within, await assessor.current(), record, stored);
    },
  });
  const ask = (url: string) => app.inject({ url, headers: { authorization: `Bearer ${token}` } });
  try {
    const step = Math.max(1, Math.floor(ids.length / CHILDREN));
    const some = ids.filter((_, i) => i % step === 0);
    for (const [i, id] of some.entries()) {
      if (Date.now() > until) break;
      if (i % LISTS_EVERY === 0)
        for (const url of ['/recall', '/today', `/children?text=${id.slice(0, 1)}`]) await ask(url);
      const child = `/children/${encodeURIComponent(id)}`;
      const [{ devices }] = await tx.caseload.records([id]);
      const worn = devices.find((d) => d.status === 'worn');
      const whatIf = worn ? [`${child}/what-if/next?device=${encodeURIComponent(worn.id)}`] : [];
      for (const url of [child, `${child}/visit`, ...whatIf]) await ask(url);
    }
  } finally {
    await app.close();
  }
}
