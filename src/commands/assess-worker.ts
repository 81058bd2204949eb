import { parentPort, workerData } from 'node:worker_threads';
import { assessChild } from '../forecast/assess-child.js';
import { loadGrowthModel } from '../growth/population/model.js';
import type { ChildRecord } from '../records/caseload.js';
import type { AssessSettings } from './assess-in-parallel.js';

/** Assesses one child after another as they are handed over. What a growth model can still do stays behind. */
const { model, ...settings } = workerData as AssessSettings;
const context = { ...settings, model: loadGrowthModel(model) };

parentPort?.on('message', (record: ChildRecord) => {
  const { growth: _, ...answer } = assessChild(record, context);
  parentPort?.postMessage(answer);
});
