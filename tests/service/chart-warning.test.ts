import { afterEach, describe, expect, it } from 'vitest';
import { hearChartWarnings, renderSvg } from '../../src/charts/render-chart.js';
import { testService } from './test-service.js';

/** Vega-Lite does not know the channel 'banana' and says so. */
const warns = {
  $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
  data: { values: [{ a: 1 }] },
  mark: 'point',
  encoding: { x: { field: 'a', type: 'quantitative' }, banana: { field: 'a', type: 'quantitative' } },
} as never;

describe('a chart that raises a warning', () => {
  const refuse = hearChartWarnings(() => undefined);
  hearChartWarnings(refuse);
  afterEach(() => void hearChartWarnings(refuse));

  it('is an error for whoever did not say what to do', async () => {
    await expect(renderSvg(warns)).rejects.toMatchObject({ code: 'chart-warning' });
  });

  it('is drawn by the service, and its log has the warning', async () => {
    const service = await testService({}, 1);
    const said: unknown[] = [];
    service.app.log.warn = (line: unknown) => said.push(line) as never;
    expect(await renderSvg(warns)).toContain('<svg');
    expect(JSON.stringify(said)).toContain('banana');
    await service.stop();
  });
});
