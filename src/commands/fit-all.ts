import { spawnSync } from 'node:child_process';
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

/** What is estimated, in order: each reads what those before it wrote. */
const steps = ['notes', 'references', 'baselines', 'growth'] as const;
export const fitParts = [...steps, 'cards'] as const;

/** `doorpost fit`: one part, or all of them, each a process of its own because of what it reads. */
export async function fitAll(
  part: (typeof fitParts)[number] | undefined,
  { data }: { data: string },
): Promise<void> {
  const at = (file: string) => join(data, file);
  const models = await import('./fit-models.js');
  switch (part) {
    case 'notes':
      return models.fitNotes();
    case 'references':
      return models.fitReferences(at(dataFiles.survey));
    case 'baselines':
      return models.fitBaselines(at(dataFiles.cohort));
    case 'growth': {
      const { fitGrowth } = await import('./fit-growth.js');
      return fitGrowth(at(dataFiles.cohort), dataFiles.infants.map(at), at(dataFiles.survey));
    }
    case 'cards':
      return models.fitCards();
    case undefined:
      for (const step of steps) {
        const { status } = spawnSync(process.execPath, [launcher, 'fit', step, '--data', data], {
          stdio: 'inherit',
        });
        if (status !== 0) throw new DoorpostError('invalid-value', `fit ${step} did not end well`);
      }
  }
}
