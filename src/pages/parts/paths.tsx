import type { FastifyRequest } from 'fastify';
import type { ComponentChildren } from 'preact';
import type { ServiceDeps } from '../../service/dependencies.js';

/** What somebody outside this page has to type to open a place of it. */
export const wholeAddress = (request: FastifyRequest, { config }: ServiceDeps, path: string): string =>
  `${config.publicUrl ?? `${request.protocol}://${request.host}`}${path}`;

/** The page of a child, or what is below it. */
export const childPath = (id: string, rest = ''): string => `/children/${encodeURIComponent(id)}${rest}`;

export const devicePath = (childId: string, deviceId: string, rest = ''): string =>
  childPath(childId, `/devices/${encodeURIComponent(deviceId)}${rest}`);

/** A place to go to, as large as a button; `main`: the one thing to do here. */
export const Go = (props: {
  to: string;
  main?: boolean;
  accesskey?: string;
  children: ComponentChildren;
}) => (
  <a class={props.main ? 'button main-action' : 'button'} href={props.to} accesskey={props.accesskey}>
    {props.children}
  </a>
);

/** A child by its name, or by its number where the clinic keeps no names. */
export const ChildLink = ({ id, name }: { id: string; name?: string }) => (
  <a href={childPath(id)}>{name || id}</a>
);
