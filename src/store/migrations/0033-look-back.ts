/** A forecast can be made for a day long past, from the record as it stood then: the day it was really made is kept. */
export const lookBack = 'alter table forecast_history add column made_on date';
