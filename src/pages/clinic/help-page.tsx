import type { FastifyInstance } from 'fastify';
import { everyone } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import type { Role } from '../../store/contract.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { pagesOf } from '../parts/pages-of.js';

/** What no page says where it is needed, in the order of each reader's day. */
const helps: Readonly<Record<Role, readonly (readonly [task: string, how: string])[]>> = {
  clinician: [
    [
      'The visit',
      'On the child: Enter a visit. Sizes, the look at the skin and your judgement of each device are saved together. "Fits well" means: on that day it was not beyond use, whatever the usual limit says.',
    ],
    [
      'The action',
      'Each device card says what to do and why. "Check" comes with the room in mm at which to cast that day. Dates rest on what was measured; they do not move because a week has passed.',
    ],
    [
      'The next one',
      'From the device card: family, sides and built-in room are carried over. When it is delivered and fitted, record that: the earlier one can be retired in the same step.',
    ],
    [
      'The defaults',
      'Read Fit rules, set the limits of your clinic with a reason, and sign on Defaults to sign. Pain, a blister, or redness that does not fade outranks every date.',
    ],
  ],
  scheduler: [
    [
      'When a parent speaks of pain, a blister, swelling or a mark that stays',
      'Have the device taken off as the sentence says (a hip orthosis only when the clinic says so), and put the call through to a clinician now. No date on the list answers this.',
    ],
    [
      'The weeks',
      'Enter casting slots, holidays and closed days under Capacity. A new list then finds another week for who has none, and leaves everybody else where they are.',
    ],
    [
      'Print or export',
      'Behind More on the recall list: the whole list, letters (without who is booked or has declined), calendar and table.',
    ],
  ],
  administrator: [
    [
      'The records',
      'Import takes spreadsheets as the clinic keeps them: nothing is written before you have seen what was understood, what is asked and what was refused.',
    ],
    [
      'Accounts',
      'A person who leaves is switched off, not deleted; the access log keeps the name. Erasing a child is for good and needs a reason.',
    ],
  ],
  auditor: [
    [
      'The rules',
      'Fit rules and Defaults to sign show who set and signed what, when and why. Reading the access log leaves a row as well.',
    ],
  ],
};

export function registerHelpPage(app: FastifyInstance, deps: ServiceDeps): void {
  pagesOf(app, deps).get('/help', everyone, async () => <HelpPage />);
}

/** One screen for who is signed in. */
function HelpPage() {
  const role = usePage().user?.role ?? 'clinician';
  return (
    <Layout titled title="Help">
      <ol class="help">
        {helps[role].map(([task, how]) => (
          <li key={task}>
            <strong>{task}.</strong> {how}
          </li>
        ))}
      </ol>
    </Layout>
  );
}
