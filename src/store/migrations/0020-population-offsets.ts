/** Nothing reads it any more: how a clinic's own children stand off a model's curves, as earlier versions learned it. */
export const populationOffsets = `
create table population_offsets (
  seq bigserial primary key,
  learned_on date not null,
  model_name text not null,
  model_version text not null,
  children integer not null,
  offsets jsonb not null,
  unique (learned_on, model_name, model_version)
);
`;
