import type { ChildRecord } from '../../records/caseload.js';
import { avoidsLatex, type Child } from '../../records/records.js';
import { type Actor, seesDiagnoses } from '../shapes.js';

/** A scheduler or administrator gets no diagnosis detail; alerts that protect the child (skin, latex) stay. */
export function childVisibleTo(actor: Actor, child: Child): Child {
  if (seesDiagnoses(actor)) return child;
  return {
    ...child,
    latexAlert: avoidsLatex(child),
    conditions: [],
    affectedSide: 'none',
    palliative: false,
    gestationWeeks: null,
    extra: {},
  };
}

export function recordVisibleTo(actor: Actor, record: ChildRecord): ChildRecord {
  if (seesDiagnoses(actor)) return record;
  return {
    ...record,
    child: childVisibleTo(actor, record.child),
    markers: [],
    skinChecks: [],
    devices: record.devices.map((d) => ({ ...d, extra: {} })),
    events: record.events.map((e) => ({ ...e, note: '' })),
  };
}
