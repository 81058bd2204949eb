/** The day a recalled child is booked for, kept with the entry and with every change of its state; who sees a child. */
export const appointments = `
alter table recall_entries add column appointment date;
alter table recall_state_changes add column from_appointment date;
update children set data = data || '{"clinician": ""}' where not data ? 'clinician';
`;
