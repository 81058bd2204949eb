import { readFileSync } from 'node:fs';
import type { Socket } from 'node:net';
import type pg from 'pg';
import { goLast } from '../launch/go-last.js';

/**
 * The server's process behind a connection goes last as well, where it runs on this machine: its title then ends in the
 * very port that we hold. Where it is another's, it is not ours to put back and stays as it is.
 */
export function serverGoesLast(client: pg.PoolClient): void {
  const { processID, connection } = client as unknown as {
    readonly processID: number | null;
    readonly connection: { readonly stream: Socket };
  };
  try {
    const title = readFileSync(`/proc/${processID}/cmdline`, 'utf8');
    if (title.startsWith('postgres: ') && title.includes(`(${connection.stream.localPort})`))
      goLast(processID ?? undefined);
  } catch {
    // It runs on another machine, or on a system that shows no titles.
  }
}
