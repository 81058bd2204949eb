import { parentPort } from 'node:worker_threads';
import type { Spec } from './fill-spec.js';
import { hearChartWarnings, renderSvg } from './render-chart.js';

export interface ChartQuestion {
  readonly id: number;
  readonly spec: Spec;
}
export type ChartAnswer =
  | { readonly id: number; readonly svg: string }
  | { readonly id: number; readonly failed: string }
  | { readonly warning: string };

hearChartWarnings((warning) => parentPort?.postMessage({ warning } satisfies ChartAnswer));

parentPort?.on('message', ({ id, spec }: ChartQuestion) => {
  renderSvg(spec).then(
    (svg) => parentPort?.postMessage({ id, svg } satisfies ChartAnswer),
    (error: Error) => parentPort?.postMessage({ id, failed: error.message } satisfies ChartAnswer),
  );
});
