/** The records of a dry run, a row each: no process holds all of them, and the database compares them with what is kept. */
export const importRows = `
create table import_rows (
  import_id text not null references imports (id) on delete cascade,
  seq integer not null,
  part text not null,
  record_id text not null,
  data jsonb not null,
  primary key (import_id, seq)
);
insert into import_rows
  select i.id, row_number() over (partition by i.id order by array_position(
      array['children', 'measurements', 'markers', 'devices', 'events', 'jobs', 'skinChecks'], p.key), r.n),
    p.key, r.value ->> 'id', r.value
  from imports i, jsonb_each(i.caseload) p, jsonb_array_elements(p.value) with ordinality r (value, n);
alter table imports add column kept boolean not null default true;
update imports set kept = false where caseload is null;
alter table imports drop column caseload;
`;
