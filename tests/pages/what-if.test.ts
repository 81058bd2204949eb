import { expect, it } from 'vitest';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { whatIf, whatIfCharts } from '../../src/pages/child/what-if.js';
import { deviceRecord } from '../../src/records/device.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { buildChild } from '../forecast/build-record.js';

const TODAY = '2026-11-25';

it('answers for every dimension of every family of devices, or says that nothing tells how it grows', () => {
  const child = buildChild(TODAY, 7, { sex: 'female' })
    .series('stature', 'none', [
      [6, 1180],
      [0, 1210],
    ])
    .series('hand_length', 'left', [[0, 134]]);
  const { growth } = child.assess();
  if (growth.kind !== 'posterior') throw new Error('no posterior');
  const { posterior } = growth;
  const using = { posterior, model: loadGrowthModel(), measurements: child.record.measurements };
  const silent = new Set<string>();
  const asked = new Set<string>();
  for (const [family, rule] of loadRules())
    for (const dimension of rule.dimensions.filter((d) => !asked.has(d.measure))) {
      asked.add(dimension.measure);
      const side = rule.sides === 'one' ? 'left' : rule.sides;
      const device = deviceRecord.parse({ id: 'd', childId: 'c', family, side, castDate: TODAY });
      const answer = whatIf(using, device, dimension, TODAY);
      if (!answer) {
        silent.add(dimension.measure);
        continue;
      }
      const { record } = child;
      const { spec } = whatIfCharts(answer, device, { record, posterior, today: TODAY, centileAt: null });
      expect(spec.layer.length).toBeGreaterThan(0);
    }
  expect(silent).toContain('malleolar_width');
  expect(silent).not.toContain('hand_length');
  expect(silent).not.toContain('foot_length');
});
