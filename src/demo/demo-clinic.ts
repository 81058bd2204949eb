import { type ChildRecord, ungroup } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import { loadRules } from '../rules/load-rules.js';
import { chance } from './chance.js';
import { withMistakes } from './clinic-mistakes.js';
import { inventChild, type Relative } from './invent-child.js';
import { inventRecord } from './invent-record.js';
import { patternsOf } from './scenario.js';

export interface DemoOptions {
  readonly children: number;
  readonly seed: number;
  readonly today: IsoDate;
}

const TWIN = 0.04;
const SIBLING = 0.05;

/** Places a week: as many as such a clinic has visits, and a few to spare for those who are late. */
export const demoSlotsPerWeek = (children: number): number => Math.ceil(children / 8);

/**
 * An invented clinic up to a date: children of every device family and many conditions, their visits, readings,
 * devices, workshop jobs and the slips a clinic makes. Everyone and everything in it is made up; the same options
 * give the same clinic.
 */
export function demoClinic({ children, seed, today }: DemoOptions) {
  const rules = loadRules();
  const invented: ChildRecord[] = [];
  patternsOf(children).forEach((pattern, index) => {
    const c = chance(seed * 1009 + index);
    const relative = relativeOf(invented, pattern.condition, c.between(0, 1), index);
    if (relative && relative.child.siblingGroup === null) giveFamily(invented, relative.child.id);
    const child = inventChild(index + 1, pattern, relative, today, c);
    invented.push(inventRecord(child, pattern, rules, today, c));
  });
  const { records, mistakes } = withMistakes(invented, chance(seed * 1009 - 1));
  return {
    caseload: ungroup(records),
    // Slips put into the readings on purpose.
    mistakes,
  };
}

/** A twin among children of the same condition, or a sibling of any. */
function relativeOf(
  before: readonly ChildRecord[],
  condition: string,
  draw: number,
  index: number,
): Relative | null {
  if (draw < TWIN) {
    const twin = before.findLast((r) => r.child.conditions[0] === condition && r.child.siblingGroup === null);
    return twin ? { child: twin.child, twin: true } : null;
  }
  const alone = before.filter((r) => r.child.siblingGroup === null);
  const sibling = draw < TWIN + SIBLING ? alone[(index * 7) % alone.length] : undefined;
  return sibling ? { child: sibling.child, twin: false } : null;
}

function giveFamily(records: ChildRecord[], childId: string): void {
  const at = records.findIndex((r) => r.child.id === childId);
  const { child } = records[at];
  records[at] = { ...records[at], child: { ...child, siblingGroup: `family of ${childId}` } };
}
