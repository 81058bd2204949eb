import type { FastifyInstance } from 'fastify';
import { DoorpostError } from './errors.js';
import type { Configuration } from './service/configuration.js';

/** Opens the port, and only this does. Gives the address people can open. */
export async function listen(app: FastifyInstance, config: Configuration): Promise<string> {
  try {
    const address = await app.listen({ host: config.host, port: config.port });
    return config.publicUrl ?? address;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
    throw new DoorpostError(
      'invalid-configuration',
      code === 'EADDRINUSE'
        ? `Port ${config.port} is taken: set PORT to another one`
        : `Port ${config.port} may not be opened by this user: set PORT to 1024 or more`,
    );
  }
}
