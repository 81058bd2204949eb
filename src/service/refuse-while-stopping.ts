import type { FastifyInstance } from 'fastify';
import { DoorpostError } from '../errors.js';

/**
 * Once a stop is asked, what comes on a connection that is open still gets 503 on every route; who asks again reaches
 * the next start, or another process. Requests in flight are answered.
 */
export function refuseWhileStopping(app: FastifyInstance): void {
  let stopping = false;
  app.addHook('preClose', async () => {
    stopping = true;
  });
  app.addHook('onRequest', async () => {
    if (stopping) throw new DoorpostError('stopping', 'doorpost is being stopped: try again in a moment');
  });
}
