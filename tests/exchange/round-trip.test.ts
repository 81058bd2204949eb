import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvTables } from '../../src/exchange/csv/write-caseload.js';
import { toFhirBundle, toFhirResources } from '../../src/exchange/fhir/to-fhir.js';
import { parseCaseload } from '../../src/exchange/parse-caseload.js';
import { type Caseload, caseloadParts } from '../../src/records/caseload.js';
import { anyCaseload, TODAY } from './caseload-arbitrary.js';

const encode = (text: string) => new TextEncoder().encode(text);
const RUNS = { numRuns: 60 };

async function expectSame(before: Caseload, files: { name: string; bytes: Uint8Array }[]) {
  const { caseload, refused, notices } = await parseCaseload(files, { today: TODAY });
  expect(refused).toEqual([]);
  // A clinic's own columns are kept in CSV under their own names; in FHIR nothing of ours is left over.
  if (!files.some(({ name }) => name.endsWith('.csv')))
    expect(notices.filter((notice) => notice.includes('kept but not read'))).toEqual([]);
  for (const part of caseloadParts) expect(caseload[part], part).toEqual(before[part]);
}

// Property: nothing is lost on the way out and back, whatever a clinic wrote into its free text.
describe('a caseload written and read again is the same', () => {
  it('as CSV', async () => {
    await fc.assert(
      fc.asyncProperty(anyCaseload, async (caseload) => {
        const tables = Object.entries(csvTables(caseload));
        await expectSame(
          caseload,
          tables.map(([name, text]) => ({ name, bytes: encode(text) })),
        );
      }),
      RUNS,
    );
  });

  it('as a FHIR bundle', async () => {
    await fc.assert(
      fc.asyncProperty(anyCaseload, async (caseload) => {
        const text = JSON.stringify(toFhirBundle(toFhirResources(caseload)));
        await expectSame(caseload, [{ name: 'bundle.json', bytes: encode(text) }]);
      }),
      RUNS,
    );
  });

  it('as NDJSON', async () => {
    await fc.assert(
      fc.asyncProperty(anyCaseload, async (caseload) => {
        const lines = toFhirResources(caseload).map((resource) => `${JSON.stringify(resource)}\n`);
        await expectSame(caseload, [{ name: 'all.ndjson', bytes: encode(lines.join('')) }]);
      }),
      RUNS,
    );
  });
});
