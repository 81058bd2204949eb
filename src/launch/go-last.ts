import { writeFileSync } from 'node:fs';
import os from 'node:os';

/** A page is waited for, a forecast is not. */
const AFTER_PAGES = os.constants.priority.PRIORITY_BELOW_NORMAL;

/**
 * From now on this process of the same machine gets what others leave of the processor. Linux commonly shares it out among
 * sessions first and looks at priorities only within one, so that the whole session is put back as well; a worker and each
 * connection of the built-in database have a session of their own.
 */
export function goLast(pid: number | undefined): void {
  if (pid === undefined) return;
  try {
    os.setPriority(pid, AFTER_PAGES);
    if (process.platform === 'linux') writeFileSync(`/proc/${pid}/autogroup`, `${AFTER_PAGES}`);
  } catch {
    // It has ended already, or this system does not group by session.
  }
}
