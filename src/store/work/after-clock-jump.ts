import type { QueueConnection } from './queue-connection.js';

/** No job is sent for later than a moment from now: what stands further ahead was written while the clock was wrong. */
const AHEAD = `now() + interval '1 minute'`;

const jobs = `
  update pgboss.job set start_after = least(start_after, now()), started_on = least(started_on, now())
  where state < 'completed' and (start_after > ${AHEAD} or started_on > ${AHEAD})`;

/** When the queue's library last swept, counted and looked at its clock: it waits from then on. */
const looks = `
  update pgboss.version set maintained_on = least(maintained_on, now()), monitored_on = least(monitored_on, now()),
    cron_on = least(cron_on, now())
  where greatest(maintained_on, monitored_on, cron_on) > ${AHEAD}`;

/** After a clock that was ahead is put right, work written meanwhile would otherwise wait until that time comes again. */
export async function afterClockJump(connection: QueueConnection): Promise<void> {
  await connection.executeSql(jobs, []);
  await connection.executeSql(looks, []);
}
