import { expect, it } from 'vitest';
import type { Meaning } from '../../src/exchange/headings/meaning.js';
import { valueFit } from '../../src/exchange/sheets/value-fit.js';
import type { MeasureId } from '../../src/records/measure.js';

const reading = (measure: MeasureId): Meaning => ({
  kind: 'reading',
  measure,
  side: 'left',
  unit: null,
  at: null,
});
const share = (measure: MeasureId, ...cells: string[]) => valueFit(reading(measure), cells, '2026-11-25');

// 'Ankle' alone is a height, a breadth or a girth: about 35-75, 30-70 and 100-230 mm; common practice, no source.
it.each([
  ['ankle_height', 'ankle_girth', ['60', '62', '66']],
  ['ankle_girth', 'ankle_height', ['165', '171', '180']],
  ['ankle_girth', 'malleolar_width', ['16,5', '17,1', '18']],
] as const)('sizes say %s rather than %s: %j', (likelier, other, cells) => {
  expect(share(likelier, ...cells)).toBeGreaterThan(share(other, ...cells));
});
