import { randomBytes } from 'node:crypto';
import { rename, writeFile } from 'node:fs/promises';
import { writeCaseload } from '../exchange/csv/write-caseload.js';
import { recallResources } from '../exchange/fhir/recall-resources.js';
import { toFhirBundle, toFhirResources, toNdjson } from '../exchange/fhir/to-fhir.js';
import { recallCalendar } from '../exchange/icalendar/recall-calendar.js';
import { clinicDays } from '../recall/level/clinic-week.js';
import { assess } from './assess.js';
import { type ReadingOptions, readPaths, readRules, tell, todayOf } from './reading-options.js';

/** `doorpost export`: a caseload (and for FHIR and iCalendar its recall plan) in an open format. */
export async function exportFiles(
  paths: readonly string[],
  options: ReadingOptions & { out: string; as: 'csv' | 'fhir' | 'ndjson' | 'icalendar'; month?: string },
): Promise<number> {
  const parsed = await readPaths(paths, options);
  const today = todayOf(options);
  if (options.as === 'csv') await writeCaseload(options.out, parsed.caseload);
  else {
    const { recall } = await assess(parsed.caseload, {
      today,
      month: options.month,
      rules: readRules(options.rules),
    });
    const resources = () => [...toFhirResources(parsed.caseload), ...recallResources(recall, today)];
    const text = {
      fhir: () => JSON.stringify(toFhirBundle(resources()), null, 1),
      ndjson: () => toNdjson(resources()),
      // A feed from the command line is made once: its UIDs need no key that outlives it.
      icalendar: () =>
        recallCalendar(recall.entries, {
          ...{ today, now: new Date(), clinic: clinicDays({}) },
          uidKey: randomBytes(16).toString('hex'),
        }),
    }[options.as]();
    await writeFile(`${options.out}.part`, text);
    await rename(`${options.out}.part`, options.out);
  }
  return tell(parsed, options, { written: options.out }, [`Written: ${options.out}`], true);
}
