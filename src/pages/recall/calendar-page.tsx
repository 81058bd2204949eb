import { CopyField } from '../parts/copy-field.js';
import { Form, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';

/** The list in the reader's own calendar: an address that stays up to date, how to end it, or the file of today. */
export const CalendarPage = ({ url }: { url: string }) => (
  <Layout title="Calendar" scripts={['copy.js']}>
    <p>
      <a href="/recall">Recall list</a>
    </p>
    <h1>The recall list in your calendar</h1>
    <section class="card">
      <p>
        Give this address to your calendar program as a subscription; it then follows the list by itself. An
        event says that an appointment is booked or to be arranged, and no name, diagnosis or device.
      </p>
      <CopyField label="Your address" value={url} />
      <p>
        It is yours alone, and whoever has it can read the list's days. It ends when your password or role
        changes, or here:
      </p>
      <Form action="/password/elsewhere">
        <p class="row">
          <Submit>Take the address back, and sign out everywhere else</Submit>
        </p>
      </Form>
    </section>
    <p>
      Or take <a href="/recall/calendar.ics">the list of today as a file</a>, which does not change
      afterwards.
    </p>
  </Layout>
);
