import type { FastifyRequest } from 'fastify';

const LOOPBACK = new Set(['127.0.0.1', '::1', '::ffff:127.0.0.1']);
const PASSED_ON = ['forwarded', 'via', 'x-forwarded-for', 'x-forwarded-host', 'x-real-ip'];

/** Asked on this machine, by its own name, and not passed on by a proxy that says so. */
export function isFromThisMachine(request: FastifyRequest): boolean {
  const host = (request.headers.host ?? '').replace(/:\d+$/, '');
  return (
    LOOPBACK.has(request.socket.remoteAddress ?? '') &&
    ['localhost', '127.0.0.1', '[::1]'].includes(host) &&
    !PASSED_ON.some((header) => request.headers[header] !== undefined)
  );
}
