import type { ComponentChildren, JSX } from 'preact';
import { administrators, everyone, overseers, planners, staff } from '../../records/roles.js';
import type { Role } from '../../store/contract.js';
import { Form } from './form.js';
import { usePage } from './page-context.js';
import { ChildLink } from './paths.js';

interface Place {
  readonly href: string;
  readonly label: string;
  readonly roles: readonly Role[];
}

const places: readonly Place[] = [
  { href: '/today', label: 'Today', roles: planners },
  { href: '/children', label: 'Children', roles: staff },
  { href: '/recall', label: 'Recall list', roles: planners },
  { href: '/overview', label: 'Overview', roles: staff },
  { href: '/capacity', label: 'Capacity', roles: staff },
  { href: '/fit-rules', label: 'Fit rules', roles: everyone },
  { href: '/import', label: 'Import', roles: administrators },
  { href: '/users', label: 'Users', roles: administrators },
  { href: '/settings', label: 'Settings', roles: administrators },
  { href: '/access-log', label: 'Access log', roles: overseers },
];

/** Where a person starts by what they do. */
export const homeOf: Readonly<Record<Role, string>> = {
  clinician: '/today',
  scheduler: '/recall',
  administrator: '/users',
  auditor: '/access-log',
};

export interface LayoutProps {
  readonly title: string;
  /** The title stands over the page, too. */
  readonly titled?: boolean;
  readonly scripts?: readonly string[];
  readonly language?: string;
  readonly direction?: 'ltr' | 'rtl';
  /** 'sheet' is one printed page without navigation. */
  readonly kind?: 'app' | 'sheet';
  readonly styles?: readonly string[];
  readonly children: ComponentChildren;
}

export function Layout(props: LayoutProps) {
  const { title, scripts = [], language = 'en', direction = 'ltr', kind = 'app', children } = props;
  const { clinicName, csrf, demo, notice, path, unsigned, user } = usePage();
  return (
    <html lang={language} dir={direction}>
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="robots" content="noindex" />
        <title>{`${title} · doorpost`}</title>
        <link rel="icon" href="/assets/mark.svg" type="image/svg+xml" />
        {(props.styles ?? ['style.css', 'child.css']).map((name) => (
          <link key={name} rel="stylesheet" href={`/assets/${name}`} />
        ))}
        {csrf && <meta name="csrf" content={csrf} />}
        {scripts.map((name) => (
          <script key={name} type="module" src={`/assets/${name}`} />
        ))}
      </head>
      <body class={kind}>
        <a class="skip" href="#main">
          Skip to content
        </a>
        {kind === 'app' && (
          <header class="top">
            <a class="brand" href="/">
              doorpost
            </a>
            {user && (
              <nav aria-label="Main">
                <ul>
                  {places
                    .filter((p) => p.roles.includes(user.role))
                    .map((p) => (
                      <li key={p.href}>
                        <a href={p.href} aria-current={path.startsWith(p.href) ? 'page' : undefined}>
                          {p.label}
                        </a>
                      </li>
                    ))}
                </ul>
              </nav>
            )}
            {user && (
              <Form class="who" action="/sign-out">
                <span>
                  {user.displayName || user.name} <small>{user.role}</small>
                </span>
                <a href="/help">Help</a>
                <a href="/password">Password</a>
                <button type="submit" class="quiet">
                  Sign out
                </button>
              </Form>
            )}
          </header>
        )}
        <main id="main" tabIndex={-1}>
          {unsigned.length > 0 && (
            <p class="unsigned" role="note">
              Not yet signed by a practitioner of this clinic: {unsigned.join('; ').toLowerCase()}.{' '}
              <a href="/sign-offs">Read and sign</a>
            </p>
          )}
          {notice && (
            <p class="notice" role="status">
              {notice}
            </p>
          )}
          {props.titled && <h1>{title}</h1>}
          {children}
        </main>
        {kind === 'app' && (
          <footer>
            <p>
              {clinicName && `${clinicName}. `}
              Estimates from measurements, not a diagnosis. Growth is irregular: check skin and fit at every
              visit, and do not wait for a forecast when it hurts or the skin looks wrong.
              {demo && ' Demo clinic: every child here is invented.'}
            </p>
          </footer>
        )}
      </body>
    </html>
  );
}

/** A page of one child: the way back to it, and what is done here. */
export const ChildLayout = (
  props: Pick<LayoutProps, 'title' | 'scripts' | 'children'> & {
    child: { readonly id: string; readonly name: string };
    /** Where it says more than the title. */
    heading?: string;
    beside?: ComponentChildren;
  },
) => (
  <Layout title={props.title} scripts={props.scripts}>
    <p>
      <ChildLink id={props.child.id} name={props.child.name} /> {props.beside}
    </p>
    <h1>{props.heading ?? props.title}</h1>
    {props.children}
  </Layout>
);

export const Empty = ({ children }: { children: ComponentChildren }) => <p class="empty">{children}</p>;

/** Pages of one thing beside each other, the one shown marked. */
export const Tabs = ({ of }: { of: readonly (readonly [href: string, label: string, shown: boolean])[] }) => (
  <ul class="tabs no-print">
    {of.map(([href, label, shown]) => (
      <li key={href}>
        <a href={href} aria-current={shown ? 'true' : undefined}>
          {label}
        </a>
      </li>
    ))}
  </ul>
);

/** A part of a page under its heading, which an address can lead to. */
export const Section = (
  props: { id: string; title: ComponentChildren } & Omit<JSX.IntrinsicElements['section'], 'id' | 'title'>,
) => {
  const { id, title, children, ...section } = props;
  return (
    <section aria-labelledby={id} {...section}>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  );
};

/** Offers what the reader may do about it, and names who may do the rest. */
export function NoChildYet() {
  const role = usePage().user?.role;
  const enter = <a href="/children/new">Enter the first one</a>;
  if (role === 'administrator')
    return (
      <Empty>
        No child is on record yet. {enter}, or <a href="/import">import the clinic’s list</a>.
      </Empty>
    );
  return (
    <Empty>
      No child is on record yet. {role === 'clinician' && <>{enter}, or have</>}
      {role !== 'clinician' && 'Have'} an administrator import the clinic’s list.
    </Empty>
  );
}

/** A wide table that scrolls sideways on a narrow screen, reachable by keyboard. */
export const ScrollBox = ({ label, children }: { label: string; children: ComponentChildren }) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard.
  <section class="scroll" aria-label={label} tabIndex={0}>
    {children}
  </section>
);
