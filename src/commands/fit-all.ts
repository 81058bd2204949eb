import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DoorpostError } from '../errors.js';

const launcher = fileURLToPath(new URL('../doorpost.mjs', import.meta.url));

/** Where the records lie inside the folder of data. */
export const dataFiles = {
  survey: 'us-children-1977/children.csv',
  cohort: 'berkeley/children.csv',
  infants: ['infants-longitudinal/content.csv', 'infants-longitudinal/smocc.csv'],
} as const;

/**
 * `doorpost fit`: everything that is estimated, anew and in order. Each step is a process of its own, because it reads
 * what the one before wrote.
 */
export function fitAll({ data }: { data: string }): void {
  const at = (file: string) => join(data, file);
  for (const file of [dataFiles.survey, dataFiles.cohort, ...dataFiles.infants])
    if (!existsSync(at(file)))
      throw new DoorpostError('invalid-file', `there is no file ${at(file)}`, {
        file: at(file),
        accepted: '--data with the folder that holds it',
      });
  const steps = [
    ['notes'],
    ['references', '--records', at(dataFiles.survey)],
    ['baselines', '--cohort', at(dataFiles.cohort)],
    [
      ...['growth', '--cohort', at(dataFiles.cohort), '--infants', ...dataFiles.infants.map(at)],
      ...['--records', at(dataFiles.survey)],
    ],
  ];
  for (const step of steps) {
    const { status } = spawnSync(process.execPath, [launcher, 'fit', ...step], { stdio: 'inherit' });
    if (status !== 0) throw new DoorpostError('invalid-value', `fit ${step[0]} did not end well`);
  }
}
