import { randomBytes } from 'node:crypto';
import { rename, writeFile } from 'node:fs/promises';
import { writeCaseload } from '../exchange/csv/write-caseload.js';
import { toFhirBundle, toFhirResources, toNdjson } from '../exchange/fhir/to-fhir.js';
import { recallCalendar } from '../exchange/icalendar/recall-calendar.js';
import { clinicDays } from '../recall/level/clinic-week.js';
import { assess } from './assess.js';
import { type ReadingOptions, readPaths, readRules, tell, todayOf } from './reading-options.js';

/** `doorpost export`: a caseload, or its recall plan as a calendar, in an open format. */
export async function exportFiles(
  paths: readonly string[],
  options: ReadingOptions & { out: string; as: 'csv' | 'fhir' | 'ndjson' | 'icalendar'; month?: string },
): Promise<number> {
  const parsed = await readPaths(paths, options);
  const today = todayOf(options);
  if (options.as === 'csv') await writeCaseload(options.out, parsed.caseload);
  else {
    const text = await {
      fhir: async () => JSON.stringify(toFhirBundle(toFhirResources(parsed.caseload)), null, 1),
      ndjson: async () => toNdjson(toFhirResources(parsed.caseload)),
      icalendar: async () => {
        const { month, rules } = options;
        const { recall } = await assess(parsed.caseload, { today, month, rules: readRules(rules) });
        // A feed from the command line is made once: its UIDs need no key that outlives it.
        return recallCalendar(recall.entries, {
          ...{ today, now: new Date(), clinic: clinicDays({}) },
          uidKey: randomBytes(16).toString('hex'),
        });
      },
    }[options.as]();
    await writeFile(`${options.out}.part`, text);
    await rename(`${options.out}.part`, options.out);
  }
  return tell(parsed, options, { written: options.out }, [`Written: ${options.out}`], true);
}
