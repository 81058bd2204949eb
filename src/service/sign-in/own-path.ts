/** An origin that nobody has ('.invalid' is reserved, RFC 2606): what leaves it leaves this site. */
const HERE = 'http://here.invalid';

/** Only a path of this service, so that the sign-in cannot be used to send people elsewhere. */
export function ownPath(then: unknown): string {
  if (typeof then !== 'string' || !then.startsWith('/') || !URL.canParse(then, HERE)) return '/';
  const { origin, pathname, search, hash } = new URL(then, HERE);
  // The path is read once more: '/.//evil.example' is here, its path '//evil.example' is not.
  return origin === HERE && new URL(pathname, HERE).origin === HERE ? `${pathname}${search}${hash}` : '/';
}
