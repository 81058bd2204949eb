import { capacityOf, clinicCapacitySettings } from '../../store/contract.js';
import type { ServiceDeps } from '../dependencies.js';
import { type Api, everyday, routesOf, tagged } from './api.js';

/** What the planning reckons with. Whoever plans keeps it, so it is open to more roles than the other settings. */
export function capacityRoutes(api: Api, deps: ServiceDeps): void {
  const { get, write } = routesOf(api, deps, ['Settings']);

  get(
    '/capacity',
    everyday,
    'Casting slots, workshop jobs, holidays and closed days',
    { 200: clinicCapacitySettings },
    async () => {
      const { value, version } = await deps.store.settings.get();
      return tagged({ value: capacityOf(value), version });
    },
  );
  write(
    'PATCH /capacity',
    everyday,
    'Change what is named; the next recall list is planned with it',
    { body: clinicCapacitySettings.partial().strict(), 200: clinicCapacitySettings },
    async ({ tx, body, expected, actor }) => {
      const { value, version } = await tx.settings.change(body, expected, actor);
      return tagged({ value: capacityOf(value), version });
    },
  );
}
