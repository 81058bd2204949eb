/**
 * Which children a list, a file or a run showed, so that the log answers who saw a child; the log keeps its rows also
 * against the role that writes them; tries to sign in are counted by account, over all processes.
 */
export const doors = `
alter table audit add column child_ids text[];
create index audit_by_children on audit using gin (child_ids);
revoke update, delete, truncate on audit from current_user, public;

create table sign_in_tries (
  account text primary key,
  tries integer not null,
  locked_until timestamptz,
  last_at timestamptz not null
);
`;
