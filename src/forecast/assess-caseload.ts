import type { ChildRecord } from '../records/caseload.js';
import { type AssessmentContext, assessChild, type ChildAssessment } from './assess-child.js';

/** Every child in turn; `onProgress` is told how many are done out of how many. */
export function assessCaseload(
  records: readonly ChildRecord[],
  context: AssessmentContext,
  onProgress?: (done: number, total: number) => void,
): ChildAssessment[] {
  return records.map((record, i) => {
    const assessment = assessChild(record, context);
    onProgress?.(i + 1, records.length);
    return assessment;
  });
}
