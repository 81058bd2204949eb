/** What the clinic answered about its sheets, and what an import needs to be read again and to be taken back. */
export const sheetAnswers = `
create table sheet_answers (
  sheet text not null,
  question text not null,
  asks text not null,
  headings text not null,
  answer text not null,
  updated_by text not null,
  updated_at timestamptz not null default now(),
  primary key (sheet, question)
);
alter table imports add column files bytea;
alter table imports add column options jsonb not null default '{}';
alter table imports add column added jsonb;
`;
