import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { GrowthParameters } from '../growth/population/parameters.js';
import { type CardFacts, modelCard } from '../study/fit/model-card.js';

export const modelsFolder = fileURLToPath(new URL('../../models/', import.meta.url));

/** A model's folder: its parameters, what was measured of it, and the card that is written from the two. */
export function writeModel(folder: string, parameters: GrowthParameters, facts: CardFacts): void {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'parameters.json'), `${JSON.stringify(parameters)}\n`);
  writeFileSync(join(folder, 'card-facts.json'), `${JSON.stringify(facts)}\n`);
  writeFileSync(join(folder, 'model-card.md'), modelCard(parameters, facts));
}
