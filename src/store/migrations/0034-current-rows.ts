const tables = ['measurements', 'markers', 'device_events', 'skin_checks'];

/**
 * The same rows: a revision is passed over where another corrects it. Said of those alone that correct one, whoever
 * reads a whole clinic looks at the few corrections and not at every row a second time.
 */
export const currentRows = tables
  .map(
    (table) => `create or replace view current_${table} as select t.* from ${table} t
      where not t.withdrawn and not exists (
        select 1 from ${table} later where later.corrects_seq = t.seq and later.corrects_seq is not null);`,
  )
  .join('\n');
