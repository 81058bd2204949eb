import type { FastifyInstance } from 'fastify';
import { fieldLimits } from '../../records/field-limits.js';
import { clinicians, everyone } from '../../records/roles.js';
import type { ServiceDeps } from '../../service/dependencies.js';
import { type SignOffView, signature, signDefault, signer, signOffViews } from '../../service/sign-offs.js';
import { Form, InputField, Problem, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { type Asked, pagesOf } from '../parts/pages-of.js';

export function registerSignOffPages(app: FastifyInstance, deps: ServiceDeps): void {
  const { get, post } = pagesOf(app, deps);
  const page = async ({ request }: Asked, error = '') => {
    const views = await signOffViews(deps.store);
    return <SignOffsPage views={views} maySign={request.user?.role === 'clinician'} error={error} />;
  };

  get('/sign-offs', everyone, (asked) => page(asked));

  post('/sign-offs', clinicians, async (asked) => {
    const { subject, content, name, profession } = asked.body;
    const read = signature.safeParse({ subject, content, name, profession });
    const again = 'Write your name, and your profession with the registration, to sign.';
    if (!read.success) return asked.reply.page(await page(asked, again), 400);
    return asked.reply.save(async (tx, actor) => {
      await signDefault(tx, read.data, actor);
      return '/sign-offs?notice=default-signed';
    });
  });
}

/** What a licensed practitioner signs for the clinic before it is relied on. */
function SignOffsPage(props: { views: readonly SignOffView[]; maySign: boolean; error: string }) {
  const { views, maySign, error } = props;
  return (
    <Layout titled title="Defaults to sign">
      <p>
        What doorpost ships is common practice, not a standard. A licensed practitioner of this clinic reads
        each and signs it; when it changes it is to be signed again. A signature is kept for good.
      </p>
      <Problem error={error} />
      {views.map((view) => (
        <section class="card" key={view.subject}>
          <h2>{view.label}</h2>
          <p>
            {view.says} {view.href && <a href={view.href}>Read it</a>}
          </p>
          <p>
            <Standing view={view} />
          </p>
          {maySign && !view.holds && <SignForm view={view} />}
        </section>
      ))}
    </Layout>
  );
}

function Standing({ view }: { view: SignOffView }) {
  const { format } = usePage();
  const { signed, holds } = view;
  if (!signed) return <strong>Not signed yet.</strong>;
  const who = `${signed.name}, ${signed.profession}, on ${format.day(signed.at)}`;
  return holds ? (
    <>Signed by {who}.</>
  ) : (
    <strong>Changed since it was signed by {who}: to be signed again.</strong>
  );
}

function SignForm({ view }: { view: SignOffView }) {
  const { user } = usePage();
  const field = (name: string) => `${view.subject}-${name}`;
  return (
    <Form action="/sign-offs" hidden={{ subject: view.subject, content: view.content }}>
      <div class="row">
        <InputField
          label="Your name"
          id={field('name')}
          name="name"
          required
          {...fieldLimits(signer.shape.name)}
          value={user?.displayName}
        />
        <InputField
          label="Profession and registration"
          id={field('profession')}
          name="profession"
          required
          {...fieldLimits(signer.shape.profession)}
        />
      </div>
      <Submit>I have read it and sign it for this clinic</Submit>
    </Form>
  );
}
