import type { Actor, AuditRow, Page, PageRequest, Store } from '../store/contract.js';

/** A page of the access log; looking at it leaves a row too, with the children whose rows it showed. */
export async function shownLog(
  store: Store,
  filter: Parameters<Store['audit']['list']>[0],
  page: PageRequest,
  actor: Actor,
): Promise<Page<AuditRow>> {
  const shown = await store.audit.list(filter, page);
  await store.audit.record(actor, 'list', 'audit', {
    childId: filter.childId ?? null,
    childIds: shown.items.flatMap(({ childId }) => childId ?? []),
  });
  return shown;
}
