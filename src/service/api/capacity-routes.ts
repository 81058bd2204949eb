import type { ServiceDeps } from '../dependencies.js';
import { etag, expectedVersion, write } from '../write.js';
import { type Api, everyday } from './api.js';
import { capacityOf, clinicCapacitySettings } from './schemas/clinic-settings.js';
import { failures } from './schemas/common.js';

const tags = ['Settings'];

/** What the planning reckons with. Whoever plans keeps it, so it is open to more roles than the other settings. */
export function capacityRoutes(api: Api, { store }: ServiceDeps): void {
  api.get(
    '/capacity',
    {
      config: everyday,
      schema: {
        tags,
        summary: 'Casting slots, workshop jobs, holidays and closed days',
        response: { 200: clinicCapacitySettings, ...failures },
      },
    },
    async (_request, reply) => {
      const { value, version } = await store.settings.get();
      return reply.headers(etag(version)).send(capacityOf(value));
    },
  );

  api.patch(
    '/capacity',
    {
      config: everyday,
      schema: {
        tags,
        summary: 'Change what is named; the next recall list is planned with it',
        body: clinicCapacitySettings.partial().strict(),
        response: { 200: clinicCapacitySettings, ...failures },
      },
    },
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
