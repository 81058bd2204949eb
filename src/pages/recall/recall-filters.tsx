import { actionNames, stateNames } from '../../words/action-names.js';
import { Options } from '../parts/fields.js';
import { Form, Submit } from '../parts/form.js';
import { Go } from '../parts/paths.js';
import type { RecallQuery } from './recall-view.js';

const whom = [
  ['', 'everyone due'],
  ['overdue', 'late'],
  ['never-seen', 'never measured'],
  ['not-forecast', 'without a forecast'],
  ['open', 'not due, could fill a slot'],
] as const;

/** What the list can be narrowed to; it stands in the address, so that it can be kept and shared. */
export function Filters({ query }: { query: RecallQuery }) {
  const set = query.state || query.action || query.due || query.text;
  return (
    <Form
      method="get"
      action="/recall"
      aria-label="Find and filter"
      class={set ? 'row filters set' : 'row filters'}
    >
      <p class="field wide">
        <label for="filter-text">Find: name, number, contact</label>
        <input id="filter-text" name="text" type="search" value={query.text} maxLength={80} />
      </p>
      <p class="field more">
        <label for="filter-state">State</label>
        <select id="filter-state" name="state">
          <Options
            of={[['', 'all'], ['open', 'still open'], ...Object.entries(stateNames)]}
            chosen={query.state}
          />
        </select>
      </p>
      <p class="field more">
        <label for="filter-action">What for</label>
        <select id="filter-action" name="action">
          <Options of={[['', 'anything'], ...Object.entries(actionNames)]} chosen={query.action} />
        </select>
      </p>
      <p class="field more">
        <label for="filter-due">Who</label>
        <select id="filter-due" name="due">
          <Options of={whom} chosen={query.due} />
        </select>
      </p>
      <p>
        <Submit>Show</Submit> {set && <Go to="/recall">Whole list</Go>}
      </p>
    </Form>
  );
}
