import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { growthModelNames } from '../growth/population/model.js';
import { growthParameters } from '../growth/population/parameters.js';
import type { CardFacts } from '../study/fit/model-card.js';
import { modelsFolder, writeModel } from './fit-model-folder.js';
import { type Terminal, terminal } from './terminal.js';

/** `doorpost fit cards`: every model's card anew from its parameters and what its fit measured, after a change of words. */
export function fitCards(opts: { out?: string }, io: Terminal = terminal): void {
  const folder = opts.out ?? modelsFolder;
  for (const name of growthModelNames(folder)) {
    const read = (file: string) => JSON.parse(readFileSync(join(folder, name, file), 'utf8'));
    if (!existsSync(join(folder, name, 'card-facts.json'))) continue;
    const parameters = growthParameters.parse(read('parameters.json'));
    writeModel(join(folder, name), parameters, read('card-facts.json') as CardFacts);
    io.out(join(folder, name, 'model-card.md'));
  }
}
