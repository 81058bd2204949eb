import { execFile, spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { appendFile, chown, mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { promisify } from 'node:util';
import type { PostgresProgram } from './postgres-program.js';

const run = promisify(execFile);

export const clusterOf = (dataDir: string) => path.join(dataDir, 'postgres');
export const postmasterFile = (dataDir: string) => path.join(clusterOf(dataDir), 'postmaster.pid');
const logOf = (dataDir: string) => path.join(clusterOf(dataDir), 'server.log');
const passwordFile = (dataDir: string) => path.join(dataDir, 'postgres-password');

export const passwordOf = (dataDir: string): Promise<string | null> =>
  readFile(passwordFile(dataDir), 'utf8').then(
    (text) => text.trim(),
    () => null,
  );

/** Made in a folder of its own and renamed when complete, so that a kill leaves no half cluster. */
export async function makeCluster(dataDir: string, program: PostgresProgram, fast: boolean): Promise<void> {
  if (existsSync(path.join(clusterOf(dataDir), 'PG_VERSION'))) return;
  for (const name of await readdir(dataDir))
    if (name.startsWith('postgres.new-')) await rm(path.join(dataDir, name), { recursive: true });
  const password = randomBytes(24).toString('hex');
  const fresh = path.join(dataDir, `postgres.new-${process.pid}`);
  const handed = `${fresh}.password`;
  await mkdir(fresh, { mode: 0o700 });
  await writeFile(handed, password, { mode: 0o600 });
  const { uid, gid } = program.runAs;
  if (uid !== undefined && gid !== undefined)
    await Promise.all([fresh, handed].map((file) => chown(file, uid, gid)));
  const who = ['-D', fresh, '-U', 'doorpost', '-A', 'scram-sha-256', `--pwfile=${handed}`];
  const how = ['-E', 'UTF8', '--locale=C', fast ? '--no-sync' : '--data-checksums'];
  await run(program.initdb, [...who, ...how], { ...program.runAs, cwd: dataDir });
  await appendFile(
    path.join(fresh, 'postgresql.conf'),
    `\nlisten_addresses = '127.0.0.1'\nunix_socket_directories = ''\ntimezone = 'UTC'\nmax_connections = ${fast ? 300 : 60}\n${
      fast ? 'fsync = off\nfull_page_writes = off\nsynchronous_commit = off\n' : ''
    }`,
  );
  await writeFile(passwordFile(dataDir), password, { mode: 0o600 });
  await rm(handed);
  await rename(fresh, clusterOf(dataDir));
}

/**
 * Starts the server on a port, handing it the open file `lockFd`: the lock on that file then lasts until the last of
 * its processes has ended.
 */
export async function startServer(
  dataDir: string,
  program: PostgresProgram,
  port: number,
  lockFd: number,
): Promise<void> {
  await ctl(dataDir, program, ['start', '-w', '-t', '120', '-o', `-p ${port}`], lockFd);
}

/** Ends the server and its sessions. What was acknowledged is on disk either way; `immediate` replays its log at the next start. */
export async function stopServer(
  dataDir: string,
  program: PostgresProgram,
  how: 'fast' | 'immediate',
  seconds: number,
): Promise<void> {
  await ctl(dataDir, program, ['stop', '-m', how, '-w', '-t', String(seconds)]);
}

function ctl(dataDir: string, program: PostgresProgram, args: string[], lockFd?: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = spawn(program.pgCtl, ['-D', clusterOf(dataDir), '-l', logOf(dataDir), ...args], {
      ...program.runAs,
      cwd: dataDir,
      stdio: ['ignore', 'ignore', 'ignore', ...(lockFd === undefined ? [] : [lockFd])],
    });
    child.on('error', reject);
    child.on('exit', (code, signal) =>
      code === 0 ? resolve() : reject(new Error(`pg_ctl ${args[0]} ended with ${code ?? signal}`)),
    );
  });
}

/** The last lines the server wrote, for a message to the administrator. They hold no rows. */
export async function lastLogLines(dataDir: string, lines = 6): Promise<string> {
  const log = await readFile(logOf(dataDir), 'utf8').catch(() => '');
  return log.trimEnd().split('\n').slice(-lines).join('\n');
}

export const tellsOfFullDisk = (log: string) => /No space left on device/.test(log);
