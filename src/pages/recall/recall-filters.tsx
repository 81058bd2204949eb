import { actionNames, stateNames } from '../../words/action-names.js';
import { Form, Submit } from '../parts/form.js';
import type { RecallQuery } from './recall-view.js';

/** What the list can be narrowed to; it stands in the address, so that it can be kept and shared. */
export function Filters({ query }: { query: RecallQuery }) {
  const option = (value: string, label: string, chosen: string) => (
    <option key={value} value={value} selected={value === chosen}>
      {label}
    </option>
  );
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
          {option('', 'all', query.state)}
          {option('open', 'still open', query.state)}
          {Object.entries(stateNames).map(([value, label]) => option(value, label, query.state))}
        </select>
      </p>
      <p class="field more">
        <label for="filter-action">What for</label>
        <select id="filter-action" name="action">
          {option('', 'anything', query.action)}
          {Object.entries(actionNames).map(([value, label]) => option(value, label, query.action))}
        </select>
      </p>
      <p class="field more">
        <label for="filter-due">Who</label>
        <select id="filter-due" name="due">
          {option('', 'everyone due', query.due)}
          {option('overdue', 'late', query.due)}
          {option('never-seen', 'never measured', query.due)}
          {option('not-forecast', 'without a forecast', query.due)}
          {option('open', 'not due, could fill a slot', query.due)}
        </select>
      </p>
      <p>
        <Submit>Show</Submit>{' '}
        {set && (
          <a class="button" href="/recall">
            Whole list
          </a>
        )}
      </p>
    </Form>
  );
}
