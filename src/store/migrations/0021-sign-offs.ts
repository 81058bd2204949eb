import { appendOnly } from './append-only.js';

/** Which shipped defaults a practitioner of the clinic has read and signed. Append-only: the newest row of a subject counts. */
export const signOffs = `
create table sign_offs (
  seq bigserial primary key,
  subject text not null,
  content text not null,
  signed_name text not null,
  profession text not null,
  signed_by text not null,
  signed_at timestamptz not null default now()
);
create index sign_offs_by_subject on sign_offs (subject, seq);
${appendOnly('sign_offs')}
`;
