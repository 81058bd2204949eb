import { Csrf, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

export function NewChildPage(props: {
  context: PageContext;
  typed: Readonly<Record<string, string | undefined>>;
  error: string;
}) {
  const { context, typed, error } = props;
  return (
    <Layout title="New child" context={context}>
      <h1>New child</h1>
      {error && (
        <p class="error" role="alert">
          {error}
        </p>
      )}
      <form method="post" action="/children" class="card">
        <Csrf context={context} />
        <div class="row">
          <p class="field">
            <label for="id">Clinic's number</label>
            <input id="id" name="id" required maxLength={80} value={typed.id} autofocus />
          </p>
          <p class="field">
            <label for="name">Name</label>
            <input id="name" name="name" maxLength={200} value={typed.name} autocomplete="off" />
          </p>
          <p class="field">
            <label for="birthDate">Born on</label>
            <input
              id="birthDate"
              name="birthDate"
              type="date"
              required
              max={context.today}
              value={typed.birthDate}
            />
          </p>
          <p class="field">
            <label for="sex">Sex for the growth reference</label>
            <select id="sex" name="sex">
              {(['female', 'male', 'unknown'] as const).map((s) => (
                <option key={s} value={s} selected={s === typed.sex}>
                  {s === 'unknown' ? 'not known: show both' : s}
                </option>
              ))}
            </select>
          </p>
          <p class="field">
            <label for="gestationWeeks">
              Born at week <small>if early</small>
            </label>
            <input
              id="gestationWeeks"
              name="gestationWeeks"
              type="number"
              min={22}
              max={44}
              value={typed.gestationWeeks}
            />
          </p>
          <p class="field">
            <label for="contact">Whom to ring, and how</label>
            <input id="contact" name="contact" maxLength={400} value={typed.contact} />
          </p>
          <p class="field">
            <label for="language">Family's language</label>
            <input id="language" name="language" maxLength={35} value={typed.language ?? 'en'} size={6} />
          </p>
        </div>
        <p>
          <label>
            <input type="checkbox" name="insensateSkin" value="yes" checked={typed.insensateSkin === 'yes'} />{' '}
            insensate skin
          </label>{' '}
          <label>
            <input type="checkbox" name="latexAlert" value="yes" checked={typed.latexAlert === 'yes'} /> latex
            alert
          </label>
        </p>
        <button type="submit" class="main-action">
          Save child
        </button>
      </form>
    </Layout>
  );
}
