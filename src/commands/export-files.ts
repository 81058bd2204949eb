import { randomBytes } from 'node:crypto';
import { rename, writeFile } from 'node:fs/promises';
import { toFhirBundle, toFhirResources } from '../exchange/fhir/to-fhir.js';
import { recallCalendar } from '../exchange/icalendar/recall-calendar.js';
import { clinicDays } from '../recall/level/clinic-week.js';
import { assess } from './assess.js';
import { type ReadingOptions, readPaths, readRules, tell, todayOf } from './reading-options.js';

/** `doorpost export`: a caseload as FHIR, or its recall plan as a calendar. */
export async function exportFiles(
  paths: readonly string[],
  options: ReadingOptions & { out: string; as: 'fhir' | 'icalendar'; month?: string },
): Promise<number> {
  const parsed = await readPaths(paths, options);
  const today = todayOf(options);
  const calendar = async () => {
    const { month, rules } = options;
    const { recall } = await assess(parsed.caseload, { today, month, rules: readRules(rules) });
    // A feed from the command line is made once: its UIDs need no key that outlives it.
    return recallCalendar(recall.entries, {
      ...{ today, now: new Date(), clinic: clinicDays({}) },
      uidKey: randomBytes(16).toString('hex'),
    });
  };
  const text =
    options.as === 'fhir'
      ? JSON.stringify(toFhirBundle(toFhirResources(parsed.caseload)), null, 1)
      : await calendar();
  await writeFile(`${options.out}.part`, text);
  await rename(`${options.out}.part`, options.out);
  return tell(parsed, options, { written: options.out }, [`Written: ${options.out}`], true);
}
