import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { DoorpostError } from '../../errors.js';
import { canEnter, runAs } from './run-as.js';

/**
 * The folder that holds the built-in database. Root lends the database to another system user, who cannot enter a
 * checkout below /root: an unnamed folder then becomes /var/lib/doorpost/<checkout>, a named one is refused.
 */
export function dataFolder(
  dataDir: string,
  using: { named: boolean; runAs: string | null; log: (line: string) => void },
): string {
  const wanted = path.resolve(dataDir);
  let parent = wanted;
  while (!existsSync(parent)) parent = path.dirname(parent);
  if (canEnter(parent, runAs(using.runAs, using.log))) return wanted;
  if (using.named)
    throw new DoorpostError(
      'database-unavailable',
      `The system user whom the database runs as cannot enter the data folder DATA_DIR=${dataDir}: name a folder it can reach, such as /var/lib/doorpost`,
    );
  return `/var/lib/doorpost/${createHash('sha256').update(wanted).digest('hex').slice(0, 12)}`;
}
