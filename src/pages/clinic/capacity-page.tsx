import { familyLabel } from '../../charts/device-label.js';
import type { IsoDate } from '../../records/dates.js';
import { families } from '../../service/api/schemas/clinic-settings.js';
import { Csrf, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';
import type { Form } from '../parts/route-types.js';
import { weekdays } from '../recall/recall-words.js';
import { rowsOf, WEEK_DAYS } from './capacity-form.js';

const SPARE_ROWS = 2;

/** One clinician's week; side by side where there is room. */
function Clinician({ k, form }: { k: number; form: Form }) {
  const field = (name: string, label: string, size: number) => (
    <p class="field" key={name}>
      <label for={`clinician-${k}-${name}`}>{label}</label>
      <input
        id={`clinician-${k}-${name}`}
        name={`clinician-${k}-${name}`}
        value={form[`clinician-${k}-${name}`] ?? ''}
        size={size}
        {...(name === 'name' ? { maxLength: 80 } : { inputMode: 'numeric' as const })}
      />
    </p>
  );
  return (
    <fieldset>
      <legend>Clinician {k + 1}</legend>
      <div class="row">
        {field('name', 'Name', 14)}
        {WEEK_DAYS.map((d) => field(String(d), weekdays[d], 2))}
        {field('any', 'Any day', 2)}
        <p class="field">
          <label for={`clinician-${k}-away`}>Away</label>
          <textarea id={`clinician-${k}-away`} name={`clinician-${k}-away`} rows={1} cols={22}>
            {form[`clinician-${k}-away`] ?? ''}
          </textarea>
        </p>
      </div>
    </fieldset>
  );
}

export interface CapacityPageProps {
  readonly context: PageContext;
  /** As stored, or as entered where something was refused. */
  readonly form: Form;
  readonly version: number;
  readonly error: string;
  /** Slots of the next weeks (Mondays) as they now come out. */
  readonly weeks: ReadonlyMap<IsoDate, number>;
}

/** What the planning of weeks reckons with, kept by whoever plans. */
export function CapacityPage({ context, form, version, error, weeks }: CapacityPageProps) {
  const { format } = context;
  const rows = (kind: 'clinician' | 'workshop', spare: number) =>
    Array.from({ length: rowsOf(form, kind) + spare }, (_, k) => k);
  const usual = Math.max(...weeks.values());
  const short = [...weeks].filter(([, slots]) => slots < usual);
  return (
    <Layout title="Capacity" context={context}>
      <h1>Capacity, week by week</h1>
      <p>
        What there is room for. The next recall list is planned with it; appointments already booked stay.
        {short.length > 0 &&
          ` Weeks with fewer slots than usual in the next half year: ${short
            .map(([week, slots]) => `${format.date(week)} (${slots} of ${usual})`)
            .join(', ')}.`}
      </p>
      {error && (
        <p class="error" role="alert">
          {error} Nothing was saved.
        </p>
      )}
      <form method="post" action="/capacity">
        <Csrf context={context} />
        <input type="hidden" name="version" value={version} />
        <section class="card">
          <h2>Casting slots</h2>
          <p class="field">
            <label for="castingSlotsPerWeek">Slots a week of the whole clinic</label>
            <input
              id="castingSlotsPerWeek"
              name="castingSlotsPerWeek"
              type="number"
              class="short"
              min={0}
              max={1000}
              value={form.castingSlotsPerWeek}
            />
            <small>Counts only while no clinician is named below.</small>
          </p>
          <p class="hint">
            Slots by clinician: on fixed days, or on any day. A child whose details name one of them is
            planned with that one. Away: a line each, <code>2027-02-15 to 2027-02-19</code>.
          </p>
          {rows('clinician', SPARE_ROWS).map((k) => (
            <Clinician key={k} k={k} form={form} />
          ))}
        </section>
        <section class="card">
          <h2>Workshop</h2>
          <p class="hint">
            Jobs it can take in a week. Tick the families a row is for; none ticked is all families together.
            Without a row no limit is reckoned with.
          </p>
          {rows('workshop', 1).map((k) => (
            <fieldset key={k} class="row">
              <legend>Limit {k + 1}</legend>
              <p class="field">
                <label for={`workshop-${k}-jobs`}>Jobs a week</label>
                <input
                  id={`workshop-${k}-jobs`}
                  name={`workshop-${k}-jobs`}
                  inputMode="numeric"
                  size={4}
                  value={form[`workshop-${k}-jobs`] ?? ''}
                />
              </p>
              <div class="choices">
                {families.map((family) => (
                  <label key={family}>
                    <input
                      type="checkbox"
                      name={`workshop-${k}-family-${family}`}
                      value="yes"
                      checked={form[`workshop-${k}-family-${family}`] === 'yes'}
                    />{' '}
                    {familyLabel(family)}
                  </label>
                ))}
              </div>
            </fieldset>
          ))}
        </section>
        <section class="card">
          <h2>Holidays and closed days</h2>
          <p class="hint">
            One line each: <code>2026-12-21</code> or <code>2026-12-21 to 2027-01-03</code>, then a name if
            you like.
          </p>
          <div class="row">
            {(
              [
                ['holidays', 'School holidays', 'Families who asked for them are planned into them.'],
                ['closures', 'Clinic closed', 'Nobody is planned; bookings on these days must be made anew.'],
                ['workshopClosures', 'Workshop closed', 'Takes its share of the week’s jobs away.'],
              ] as const
            ).map(([name, label, hint]) => (
              <p class="field" key={name}>
                <label for={name}>{label}</label>
                <textarea id={name} name={name} rows={6} cols={34}>
                  {form[name] ?? ''}
                </textarea>
                <small>{hint}</small>
              </p>
            ))}
          </div>
        </section>
        <button type="submit" class="main-action">
          Save
        </button>
      </form>
    </Layout>
  );
}
