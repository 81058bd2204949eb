import { appendOnly } from './append-only.js';

/**
 * What a clinic sets in place of the shipped fit rules. Append-only: the newest row of a figure counts, one without mm
 * is back to the shipped figure. `version` counts the saves; the rows of one save share it.
 */
export const clinicFitRules = `
create table fit_limit_changes (
  seq bigserial primary key,
  version integer not null,
  family text not null,
  measure text not null,
  figure text not null,
  mm double precision check (mm >= 0),
  before_mm double precision not null,
  reason text not null,
  changed_by text not null,
  changed_at timestamptz not null default now(),
  unique (version, family, measure, figure)
);
create index fit_limit_changes_by_figure on fit_limit_changes (family, measure, figure, seq);
${appendOnly('fit_limit_changes')}
`;
