import { spawnSync } from 'node:child_process';
import { Running } from '../running-service.js';
import { ClinicAtWork } from './clinic-at-work.js';
import { familyOf, pause, postmasterOf } from './folder-processes.js';
import type { Scenario } from './scenario.js';

/** Own process numbers, network and mounts, as a second container on a shared volume has; only root may make them. */
const APART = ['unshare', '-p', '-n', '-m', '--fork', '--mount-proc'];
/** The address 127.0.0.1 has to be raised in a network of its own. */
const WITH_LOOPBACK = [...APART, 'sh', '-c', 'ip link set lo up && exec "$@"', 'sh'];

/** `unshare` passes no signal on: the service that it started is asked itself. */
async function ended(service: Running): Promise<void> {
  const { pid = 0, spawnfile } = service.process;
  const [itself, ...inside] = familyOf(pid);
  for (const one of spawnfile === APART[0] ? inside : [itself]) process.kill(one, 'SIGTERM');
  await service.ended();
}

/** A second service on the folder of a running one, on this host and as in another container; then two at the same moment, `times` over. */
export const twoStarts: Scenario = async (say, times = 1) => {
  const canBeApart = spawnSync(WITH_LOOPBACK[0], [...WITH_LOOPBACK.slice(1), 'true']).status === 0;
  const clinic = await ClinicAtWork.open({ WORKERS: '0' });
  try {
    const first = await clinic.start('serve');
    clinic.begin();
    const server = await postmasterOf(clinic.folder);
    const refused = async (where: string, second: Running) => {
      await second.ended();
      const { exitCode } = second.process;
      say(`${where}: ended with ${exitCode}`);
      if (exitCode !== 3)
        clinic.faults.push(`${where}: ended with ${exitCode}: ${second.output.slice(-300)}`);
      if (!/is in use by a running/.test(second.output))
        clinic.faults.push(`${where}: does not say that the folder is in use`);
      if ((await postmasterOf(clinic.folder)) !== server)
        clinic.faults.push(`${where}: touched the database`);
    };
    const env = { ...clinic.env, PORT: '0' };
    await refused('same host', Running.start('serve', env));
    if (canBeApart) await refused('namespaces of its own', Running.start('serve', env, APART));
    await pause(1000);
    if (!(await clinic.isReady())) clinic.faults.push('the first does not go on');

    let owner = first;
    const atOnce = async (where: string, through: string[][]) => {
      await ended(owner);
      const both = through.map((via) => Running.start('serve', clinic.env, via));
      const owns = await Promise.all(
        both.map((one) =>
          one.says(/doorpost is at/, 180).then(
            () => true,
            () => false,
          ),
        ),
      );
      const owners = both.filter((_, i) => owns[i]);
      if (owners.length !== 1) clinic.faults.push(`${where}: ${owners.length} got the folder`);
      for (const one of both.filter((_, i) => !owns[i]))
        if (one.process.exitCode !== 3 || !/is in use by a running/.test(one.output))
          clinic.faults.push(`${where}: ended with ${one.process.exitCode}: ${one.output.slice(-300)}`);
      say(`${where}: ${owners.length} of ${both.length} owns the folder`);
      owner = owners[0] ?? owner;
    };
    // Nobody else is there to be joined: one owns the folder, the other is refused.
    const rounds = Math.max(1, times);
    for (let n = 0; n < rounds; n++) {
      if (canBeApart) {
        await atOnce('both in namespaces of their own, at once', [WITH_LOOPBACK, WITH_LOOPBACK]);
        await atOnce('one of them on the host, at once', [[], WITH_LOOPBACK]);
      }
      await atOnce('same host, at once', [[], []]);
    }
    const worker = await clinic.start('worker');
    await clinic.end();
    const figures = await clinic.account();
    await worker.end('SIGTERM');
    return {
      faults: clinic.faults,
      figures: { rounds, namespaces: canBeApart ? 'tried' : 'skipped: only root can make them', ...figures },
      answers: clinic.acknowledged.answers,
    };
  } finally {
    await clinic.close();
  }
};
