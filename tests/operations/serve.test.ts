import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { chmod, mkdtemp, readFile, rm } from 'node:fs/promises';
import { constants, getPriority, tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freePort, processesOf, until } from './faults/folder-processes.js';
import { Running } from './running-service.js';

/** The service as it is started in a clinic: npm, the web server, a worker and the built-in database. */
describe('a running service', () => {
  let folder: string;
  let port: number;
  let npm: ReturnType<typeof spawn>;
  let output = '';
  const env = () => ({
    DATA_DIR: folder,
    PORT: String(port),
    DEMO: 'off',
    NODE_ENV: 'development',
    RATE_LIMIT: '100000',
    LOG_LEVEL: 'warn',
  });
  const ask = (address: string) => fetch(`http://127.0.0.1:${port}${address}`);

  beforeAll(async () => {
    folder = path.join(await mkdtemp(path.join(tmpdir(), 'doorpost-serve-')), 'data');
    await chmod(path.dirname(folder), 0o755);
    port = await freePort();
    npm = spawn('npm', ['start'], {
      cwd: fileURLToPath(new URL('../../', import.meta.url)),
      env: { ...process.env, ...env() },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    npm.stdout?.on('data', (d) => (output += d));
    npm.stderr?.on('data', (d) => (output += d));
    await until(
      () => /doorpost is at/.test(output),
      90,
      () => output,
    );
    await until(() => processesOf(folder).length >= 3, 30);
  });
  afterAll(async () => {
    for (const pid of processesOf(folder)) process.kill(pid, 'SIGKILL');
    await rm(path.dirname(folder), { recursive: true, force: true });
  });

  it('puts its worker behind the web server where both want the processor', async () => {
    const listed = spawnSync('ps', ['-o', 'pid=,args=', '-p', processesOf(folder).join()]).stdout.toString();
    const pidOf = (role: string) => Number(new RegExp(`(\\d+) .*doorpost\\.mjs ${role}`).exec(listed)?.[1]);
    // It is put back once it has started.
    await until(() => getPriority(pidOf('worker')) > getPriority(pidOf('serve')), 5);
    expect(getPriority(pidOf('worker'))).toBe(constants.priority.PRIORITY_BELOW_NORMAL);
    // Where Linux groups by session, a priority counts only among processes of one (man 7 sched, "The autogroup feature").
    const groupOf = (pid: number) => readFileSync(`/proc/${pid}/autogroup`, 'utf8');
    if (existsSync(`/proc/${pidOf('worker')}/autogroup`)) {
      expect(groupOf(pidOf('worker'))).toMatch(/nice 10$/m);
      // Started by a supervisor without a session of its own, the web server stands in the kernel's nameless group and the file is empty.
      expect(groupOf(pidOf('serve'))).not.toMatch(/nice (?:[1-9]|1\d)$/m);
    }
  });

  it('ends a second start on its folder at once, with words and a status', async () => {
    const second = Running.start('serve', { ...env(), PORT: '0' });
    await new Promise((r) => second.process.on('exit', r));
    expect(second.process.exitCode).toBe(3);
    expect(second.output).toContain("is in use by a running 'doorpost serve'");
    expect(second.output).not.toMatch(/\n {4}at /);
    expect((await ask('/ready')).status).toBe(200);
  });

  it('ends a start on its port with words and a status', async () => {
    const other = path.join(folder, '..', 'other');
    const second = Running.start('serve', { ...env(), DATA_DIR: other });
    await new Promise((r) => second.process.on('exit', r));
    expect(second.process.exitCode).toBe(3);
    expect(second.output).toContain(`Port ${port} is taken`);
    expect(processesOf(other)).toEqual([]);
  });

  it('outlives kill -9 of its database: 503 with a reason and Retry-After, then as before', async () => {
    const seen: { status: number; retryAfter: string | null; detail: string }[] = [];
    for (let kill = 0; kill < 3; kill++) {
      const pidFile = await readFile(path.join(folder, 'postgres', 'postmaster.pid'), 'utf8');
      process.kill(Number(pidFile.split('\n')[0]), 'SIGKILL');
      for (let well = 0, i = 0; i < 600 && well < 20; i++) {
        // A bearer token is looked up in the database.
        const [ready, signIn] = await Promise.all([
          ask('/ready'),
          fetch(`http://127.0.0.1:${port}/api/session`, { headers: { authorization: 'Bearer nobody' } }),
        ]);
        for (const answer of [ready, signIn]) {
          const detail = await answer.text();
          const retryAfter = answer.headers.get('retry-after');
          if (answer.status !== 200 && answer.status !== 401)
            seen.push({ status: answer.status, retryAfter, detail });
        }
        well = ready.status === 200 && signIn.status === 401 ? well + 1 : 0;
        await new Promise((r) => setTimeout(r, 25));
      }
      expect((await ask('/ready')).status).toBe(200);
    }
    expect(seen.length).toBeGreaterThan(0);
    expect(new Set(seen.map((s) => s.status))).toEqual(new Set([503]));
    expect(seen.every((s) => s.retryAfter === '5')).toBe(true);
    expect(seen.some((s) => s.detail.includes('is being started again'))).toBe(true);
    expect(npm.exitCode).toBeNull();
  }, 120_000);

  it('is gone within 10 seconds, with its worker and database, when npm is asked to end', async () => {
    const asked = Date.now();
    npm.kill('SIGTERM');
    await until(
      () => processesOf(folder).length === 0,
      12,
      () => output,
    );
    expect(Date.now() - asked).toBeLessThan(10_000);
    await until(() => npm.exitCode !== null || npm.signalCode !== null, 5);
  }, 30_000);
});
