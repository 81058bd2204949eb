/** A password that somebody else has set is known to two people: it is changed before anything else is done. */
export const firstPassword = 'alter table users add column password_by_other boolean not null default false';
