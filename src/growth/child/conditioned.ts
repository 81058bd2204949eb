import type { GrowthInput } from '../contract.js';
import type { GrowthModel } from '../population/growth-model.js';
import type { ChildPrior } from '../population/submodel.js';
import type { Component } from './components.js';
import type { Doubt } from './doubt.js';
import type { Parts } from './parts.js';
import type { Reading } from './readings.js';

/** A child conditioned on everything known: what every prediction is made of. */
export interface Conditioned {
  readonly input: GrowthInput;
  readonly model: GrowthModel;
  readonly seen: readonly Reading[];
  readonly prior: ChildPrior;
  readonly doubts: Doubt;
  readonly parts: Parts;
  readonly components: readonly Component[];
}
