import type { ComponentChildren } from 'preact';
import { familyLabel } from '../../charts/device-label.js';
import { families } from '../../store/contract.js';
import { announced, Form, InputField, LAST_DAY } from '../parts/form.js';
import { shortWeekday } from '../parts/format.js';
import { Layout } from '../parts/layout.js';
import type { Fields } from '../parts/pages-of.js';
import { rowsOf, WEEK_DAYS } from './capacity-form.js';

const SPARE_ROWS = 2;

/** One clinician's week; side by side where there is room. */
function Clinician({ k, form }: { k: number; form: Fields }) {
  const field = (name: string, label: string, size: number) => (
    <InputField
      key={name}
      label={label}
      name={`clinician-${k}-${name}`}
      value={form[`clinician-${k}-${name}`] ?? ''}
      size={size}
      {...(name === 'name' ? { maxLength: 80 } : { inputMode: 'numeric' as const })}
    />
  );
  return (
    <fieldset>
      <legend>Clinician {k + 1}</legend>
      <div class="row">
        {field('name', 'Name', 14)}
        {WEEK_DAYS.map((d) => field(String(d), shortWeekday(d), 2))}
        {field('any', 'Any day', 2)}
      </div>
      <DateRows form={form} kind={`clinician-${k}-away`} title="Away" spare={1} />
    </fieldset>
  );
}

interface CapacityPageProps {
  /** As stored, or as entered where something was refused. */
  readonly form: Fields;
  readonly version: number;
  readonly errors: readonly string[];
}

/** What the planning of weeks reckons with, kept by whoever plans. */
export function CapacityPage(props: CapacityPageProps) {
  const { form, version, errors } = props;
  const rows = (kind: 'clinician' | 'workshop', spare: number) =>
    Array.from({ length: rowsOf(form, kind) + spare }, (_, k) => k);
  return (
    <Layout title="Capacity">
      <h1>Capacity, week by week</h1>
      <p>
        What there is room for. The next recall list is planned with it; appointments already booked stay. How
        full the weeks come out is on the <a href="/overview">overview</a>.
      </p>
      {errors.length > 0 && (
        <div {...announced}>
          <p>Nothing was saved. To be mended:</p>
          <ul>
            {errors.map((e) => (
              <li key={e}>{e}</li>
            ))}
          </ul>
        </div>
      )}
      <Form action="/capacity" class="print" hidden={{ version }} send="Save" main>
        <section class="card">
          <h2>Casting slots</h2>
          <InputField
            label="Slots a week of the whole clinic"
            name="castingSlotsPerWeek"
            type="number"
            class="short"
            min={0}
            max={1000}
            value={form.castingSlotsPerWeek}
          >
            <small>Counts only while no clinician is named below.</small>
          </InputField>
          <p class="hint">
            Slots by clinician: on fixed days, or on any day. A child whose details name one of them is
            planned with that one.
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
              <InputField
                label="Jobs a week"
                name={`workshop-${k}-jobs`}
                inputMode="numeric"
                size={4}
                value={form[`workshop-${k}-jobs`] ?? ''}
              />
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
            First and last day; without a last day it is the one day. Saving gives more empty rows.
          </p>
          <DateRows form={form} kind="holidays" title="School holidays" named spare={2}>
            Families who asked for them are planned into them.
          </DateRows>
          <DateRows
            form={form}
            kind="closures"
            title="Clinic closed: public holidays and other days"
            spare={2}
          >
            Nobody is planned; bookings on these days must be made anew.
          </DateRows>
          <DateRows form={form} kind="workshopClosures" title="Workshop closed" spare={2}>
            Takes its share of the week’s jobs away.
          </DateRows>
        </section>
      </Form>
    </Layout>
  );
}

/** Spans of days, a row each with date fields, and empty rows for more. */
function DateRows(props: {
  form: Fields;
  kind: string;
  title: string;
  spare: number;
  named?: boolean;
  children?: ComponentChildren;
}) {
  const { form, kind, title, spare, named = false, children } = props;
  return (
    <fieldset class="days">
      <legend>{title}</legend>
      {children && <p class="hint">{children}</p>}
      {Array.from({ length: rowsOf(form, kind) + spare }, (_, k) => {
        const field = (name: 'from' | 'to' | 'name', label: string) => (
          <label>
            {label}{' '}
            <input
              name={`${kind}-${k}-${name}`}
              type={name === 'name' ? 'text' : 'date'}
              max={name === 'name' ? undefined : LAST_DAY}
              maxLength={name === 'name' ? 80 : undefined}
              value={form[`${kind}-${k}-${name}`] ?? ''}
              aria-label={`${title}, row ${k + 1}, ${label}`}
            />
          </label>
        );
        return (
          <p class="row" key={k}>
            {field('from', 'first day')}
            {field('to', 'last day')}
            {named && field('name', 'name')}
          </p>
        );
      })}
    </fieldset>
  );
}
