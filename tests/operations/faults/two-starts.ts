import { spawnSync } from 'node:child_process';
import { Running } from '../running-service.js';
import { ClinicAtWork } from './clinic-at-work.js';
import { pause, postmasterOf } from './folder-processes.js';
import type { Scenario } from './scenario.js';

/** Own process numbers, network and mounts, as a second container on a shared volume has; only root may make them. */
const APART = ['-p', '-n', '-m', '--fork', '--mount-proc'];

/** A second service on the folder of a running one, on this host and as in another container; then two at the same moment. */
export const twoStarts: Scenario = async (say) => {
  const canBeApart = spawnSync('unshare', [...APART, 'true']).status === 0;
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
    if (canBeApart)
      await refused('namespaces of its own', Running.start('serve', env, ['unshare', ...APART]));
    await pause(1000);
    if (!(await clinic.isReady())) clinic.faults.push('the first does not go on');

    await first.end('SIGTERM');
    // Both at the same moment: one owns the folder, the other is refused; nobody else is there to be joined.
    const both = [0, 1].map(() => Running.start('serve', clinic.env));
    const owners = await Promise.all(
      both.map((one) =>
        one.says(/doorpost is at/, 180).then(
          () => 1,
          () => 0,
        ),
      ),
    );
    if (owners[0] + owners[1] !== 1)
      clinic.faults.push(`${owners[0] + owners[1]} of two starts at once got the folder`);
    const worker = await clinic.start('worker');
    await clinic.end();
    const figures = await clinic.account();
    await worker.end('SIGTERM');
    return {
      faults: clinic.faults,
      figures: { namespaces: canBeApart ? 'tried' : 'skipped: only root can make them', ...figures },
      answers: clinic.acknowledged.answers,
    };
  } finally {
    await clinic.close();
  }
};
