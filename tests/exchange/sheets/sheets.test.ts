import { describe, expect, it } from 'vitest';
import { parseCaseload } from '../../../src/exchange/parse-caseload.js';
import { typedSheets } from './typed-sheets.js';

const TODAY = '2026-11-25';

/** Sheets typed as clinics keep them; beside each what a person at the desk would take from it (common practice, no source). */
describe('sheets as clinics type them', () => {
  it.each(typedSheets.map((sheet) => [sheet.name, sheet] as const))('%s', async (_, sheet) => {
    const bytes =
      sheet.encoding === 'latin1'
        ? new Uint8Array(Buffer.from(sheet.text, 'latin1'))
        : new TextEncoder().encode(sheet.text);
    const parsed = await parseCaseload([{ name: sheet.file ?? 'list.csv', bytes }], {
      today: TODAY,
      takeProbable: true,
    });
    const { children, measurements, devices } = parsed.caseload;
    const nameOf = new Map(children.map((c) => [c.id, c.name || c.id]));
    if (sheet.children)
      expect(children.map((c) => [c.name || c.id, c.birthDate, c.sex].join(' '))).toEqual(sheet.children);
    if (sheet.readings)
      expect(
        measurements
          .map((m) =>
            [nameOf.get(m.childId), m.date, m.measure, m.side === 'none' ? '' : m.side[0], m.value]
              .filter((w) => w !== '')
              .join(' '),
          )
          .sort(),
      ).toEqual([...sheet.readings].sort());
    if (sheet.devices)
      expect(
        devices.map((d) => [nameOf.get(d.childId), d.family, d.side, d.castDate].join(' ')).sort(),
      ).toEqual([...sheet.devices].sort());
    if (sheet.asks) expect(parsed.questions.map((q) => q.id)).toEqual(sheet.asks);
    expect(parsed.refused.map((r) => `${r.row} ${r.column}`)).toEqual(sheet.refused ?? []);
  });
});
