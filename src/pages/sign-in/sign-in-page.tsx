import type { ServiceDeps } from '../../service/dependencies.js';
import { Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

export function SignInPage(props: {
  context: PageContext;
  then: string;
  failed: boolean;
  oidc: boolean;
  demoSignIns: ServiceDeps['demoSignIns'];
}) {
  const { context, then, failed, oidc, demoSignIns } = props;
  return (
    <Layout title="Sign in" context={context}>
      <div class="cards">
        <section>
          <h1>Sign in</h1>
          {failed && (
            <p class="error" role="alert">
              Name and password do not fit together. Check both; after several attempts there is a short wait.
            </p>
          )}
          <form method="post" action="/sign-in">
            <input type="hidden" name="then" value={then} />
            <p class="field">
              <label for="name">Name</label>
              <input id="name" name="name" autocomplete="username" required autofocus autocapitalize="none" />
            </p>
            <p class="field">
              <label for="password">Password</label>
              <input id="password" name="password" type="password" autocomplete="current-password" required />
            </p>
            <button type="submit" class="main-action">
              Sign in
            </button>
          </form>
          {oidc && (
            <p>
              <a class="button" href={`/oidc/start?then=${encodeURIComponent(then)}`}>
                Sign in with the hospital's account
              </a>
            </p>
          )}
        </section>
        {demoSignIns.length > 0 && (
          <section>
            <h2>Demo clinic</h2>
            <p>Every child in it is invented. Sign in as one of these:</p>
            <table>
              <thead>
                <tr>
                  <th scope="col">Role</th>
                  <th scope="col">Name</th>
                  <th scope="col">Password</th>
                </tr>
              </thead>
              <tbody>
                {demoSignIns.map((s) => (
                  <tr key={s.name}>
                    <td>{s.role}</td>
                    <td>{s.name}</td>
                    <td>
                      <code>{s.password}</code>
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )}
      </div>
    </Layout>
  );
}
