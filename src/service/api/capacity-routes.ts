import type { ServiceDeps } from '../dependencies.js';
import { etag, expectedVersion, write } from '../write.js';
import { type Api, everyday, route } from './api.js';
import { capacityOf, clinicCapacitySettings } from './schemas/clinic-settings.js';

const tags = ['Settings'];

/** What the planning reckons with. Whoever plans keeps it, so it is open to more roles than the other settings. */
export function capacityRoutes(api: Api, { store }: ServiceDeps): void {
  api.get(
    '/capacity',
    route(everyday, tags, 'Casting slots, workshop jobs, holidays and closed days', {
      200: clinicCapacitySettings,
    }),
    async (_request, reply) => {
      const { value, version } = await store.settings.get();
      return reply.headers(etag(version)).send(capacityOf(value));
    },
  );

  api.patch(
    '/capacity',
    route(
      everyday,
      tags,
      'Change what is named; the next recall list is planned with it',
      { 200: clinicCapacitySettings },
      { body: clinicCapacitySettings.partial().strict() },
    ),
    (request, reply) =>
      write(store, request, reply, async (tx, actor) => {
        const changed = await tx.settings.change(request.body, expectedVersion(request), actor);
        return {
          status: 200,
          body: capacityOf(changed.value),
          headers: etag(changed.version),
        };
      }),
  );
}
