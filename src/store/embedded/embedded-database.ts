import { existsSync } from 'node:fs';
import { mkdir, readFile, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import path from 'node:path';
import { DoorpostError } from '../../errors.js';
import {
  clusterOf,
  lastLogLines,
  makeCluster,
  postmasterFile,
  startServer,
  stopServer,
  tellsOfFullDisk,
} from './cluster.js';
import { findEmbeddedDatabase } from './find-embedded-database.js';
import { type FolderLock, noteOf, tryFolderLock } from './folder-lock.js';
import { type KeptDatabase, keepRunning } from './keep-running.js';
import { type PostgresProgram, postgresProgram } from './postgres-program.js';

/** How long a server that is just ending elsewhere, or left behind and out of our reach, is waited for. */
const PATIENCE_MS = 8_000;
/** How long one that we started may take to answer: a busy machine, or a crash to recover from. */
const ANSWERS_WITHIN_MS = 60_000;

export interface EmbeddedDatabase {
  readonly url: string;
  trouble: KeptDatabase['trouble'];
  /** Stops the server within about so many seconds and gives the folder free. */
  stop(seconds?: number): Promise<void>;
}

/**
 * Starts PostgreSQL on `<dataDir>/postgres`, making it first where there is none, and starts it again whenever it goes
 * away. The folder has one owner: whoever comes second is refused and touches nothing. Two locks say so, each held by
 * the operating system: `owner.lock` by this process, `postgres.lock` by the server and all its sessions. A server
 * that a killed owner left behind is taken over as it is. `fast` gives up durability for tests.
 */
export async function startEmbeddedDatabase(
  dataDir: string,
  options: {
    fast?: boolean;
    /** System user the database is lent to when we are root. */
    runAs?: string | null;
    log?: (line: string) => void;
  } = {},
): Promise<EmbeddedDatabase> {
  await mkdir(dataDir, { recursive: true, mode: 0o755 });
  const owner = await ownFolder(dataDir);
  try {
    const program = await postgresProgram(dataDir, options.runAs ?? null, options.log);
    await makeCluster(dataDir, program, options.fast ?? false);
    const url = await takeOver(dataDir, program);
    const kept: KeptDatabase = await keepRunning(url, {
      raise: () => raiseServer(dataDir, program, Number(new URL(url).port)),
      logged: () => lastLogLines(dataDir, 20),
      log: options.log ?? (() => {}),
    });
    return {
      url,
      trouble: kept.trouble,
      async stop(seconds = 60) {
        // One that is being raised just now is stopped all the same.
        await Promise.race([kept.end(), new Promise((r) => setTimeout(r, 1000))]);
        await stopServer(dataDir, program, 'fast', seconds)
          .catch(() => stopServer(dataDir, program, 'immediate', 5))
          // Not running any more is what was wanted.
          .catch(() => {});
        owner.close();
      },
    };
  } catch (error) {
    owner.close();
    throw error;
  }
}

async function ownFolder(dataDir: string): Promise<FolderLock> {
  const file = path.join(dataDir, 'owner.lock');
  const lock = await tryFolderLock(file, `doorpost ${process.argv[2] ?? ''}`.trim());
  if (lock) return lock;
  const holder = noteOf(file) || 'another doorpost';
  throw new DoorpostError(
    'data-folder-in-use',
    `The data folder ${dataDir} is in use by a running '${holder}', on this machine or in another container: nothing was touched`,
    {
      accepted:
        'one service on a data folder. Stop the other one first, name another folder in DATA_DIR, or let any number share a PostgreSQL server by DATABASE_URL',
    },
  );
}

/** The address of the server on this folder: one that a killed owner left behind, or one newly started. */
async function takeOver(dataDir: string, program: PostgresProgram): Promise<string> {
  const began = Date.now();
  let ours = false;
  for (;;) {
    const raised = await raiseServer(dataDir, program, await usualPort(dataDir));
    ours ||= raised === 'started';
    const here = ours || (await runsHere(dataDir));
    const url = here && (await findEmbeddedDatabase(dataDir));
    if (url) return url;
    const patience = here && raised !== 'failed' ? ANSWERS_WITHIN_MS : PATIENCE_MS;
    if (Date.now() - began > patience) {
      // Nothing is left of a start that failed.
      if (ours) await stopServer(dataDir, program, 'immediate', 5).catch(() => {});
      throw await didNotStart(dataDir, raised);
    }
    await new Promise((r) => setTimeout(r, 500));
  }
}

/** Is the server that left its number in the pid file a process that we could stop? Where that cannot be told: yes. */
async function runsHere(dataDir: string): Promise<boolean> {
  if (!existsSync('/proc/self/cmdline')) return true;
  const pid = (await readFile(postmasterFile(dataDir), 'utf8').catch(() => '')).split('\n')[0];
  const command = await readFile(`/proc/${pid}/cmdline`, 'utf8').catch(() => '');
  return command.includes(clusterOf(dataDir));
}

async function didNotStart(dataDir: string, raised: Raised): Promise<DoorpostError> {
  if (raised === 'running elsewhere')
    return new DoorpostError(
      'data-folder-in-use',
      `PostgreSQL still runs on the data folder ${dataDir}, left behind by a service that was killed, and not where we could stop it: in another container. Nothing was touched`,
      { accepted: 'stop that container first' },
    );
  const log = await lastLogLines(dataDir);
  if (tellsOfFullDisk(log))
    return new DoorpostError('disk-full', `The disk of the data folder ${dataDir} is full`, {
      accepted: 'some room on that disk; nothing that was acknowledged is lost',
    });
  return new DoorpostError(
    'database-unavailable',
    `The built-in database did not start on ${dataDir}:\n${log}`,
  );
}

type Raised = 'started' | 'failed' | 'running elsewhere';

/** Starts the server unless one runs. With the lock in hand nobody runs on this cluster, so a pid file left is stale. */
async function raiseServer(dataDir: string, program: PostgresProgram, port: number): Promise<Raised> {
  const lock = await tryFolderLock(path.join(dataDir, 'postgres.lock'));
  if (!lock) return 'running elsewhere';
  try {
    await rm(postmasterFile(dataDir), { force: true });
    await startServer(dataDir, program, port, lock.fd);
    return 'started';
  } catch {
    return 'failed';
  } finally {
    lock.close();
  }
}

/** The port it had before, where it is still free: workers started beside a service then find it again. */
async function usualPort(dataDir: string): Promise<number> {
  const options = await readFile(path.join(clusterOf(dataDir), 'postmaster.opts'), 'utf8').catch(() => '');
  const before = Number(/"-p" "(\d+)"/.exec(options)?.[1] ?? 0);
  return freePort(before).catch(() => freePort(0));
}

function freePort(wanted: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.on('error', reject);
    probe.listen(wanted, '127.0.0.1', () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });
}
