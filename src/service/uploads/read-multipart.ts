import type { FastifyInstance, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type { NamedFile } from '../../exchange/parse-caseload.js';

/** What a form with files becomes: its fields as text, and the files of its field `files`. */
export interface Upload {
  readonly fields: Readonly<Record<string, string | undefined>>;
  readonly files: readonly NamedFile[];
}

export const uploadLimits = { bytes: 64 * 1024 * 1024, files: 12, fields: 20, fieldBytes: 1000, atOnce: 3 };

/**
 * Forms with files are read on the routes that say `upload`, after sign-in and role were checked, counted as they
 * stream in and dropped at the limit. Only so many are held in memory at a time.
 */
export function readUploads(app: FastifyInstance): void {
  let held = 0;
  app.decorateRequest('upload', null);
  app.addHook('preValidation', async (request, reply) => {
    if (!request.routeOptions.config.upload || !request.isMultipart()) return;
    if (held >= uploadLimits.atOnce)
      throw new DoorpostError(
        'too-many-requests',
        'Other files are being sent just now: try again in a minute',
      );
    held++;
    let released = false;
    reply.raw.once('close', () => {
      if (!released) held--;
      released = true;
    });
    const upload = await readParts(request);
    request.upload = upload;
    request.body = upload.fields;
  });
}

async function readParts(request: FastifyRequest): Promise<Upload> {
  const fields: Record<string, string> = Object.create(null);
  const files: NamedFile[] = [];
  const { bytes, files: most, fields: mostFields, fieldBytes } = uploadLimits;
  let left = bytes;
  const announced = Number(request.headers['content-length'] ?? 0);
  if (announced > bytes + mostFields * fieldBytes) throw tooLarge();
  try {
    const parts = request.parts({
      limits: {
        fileSize: bytes + 1,
        files: most,
        fields: mostFields,
        fieldSize: fieldBytes,
        parts: most + mostFields,
      },
    });
    for await (const part of parts) {
      if (part.type === 'field') {
        fields[part.fieldname] = String(part.value);
        continue;
      }
      const chunks: Buffer[] = [];
      for await (const chunk of part.file as AsyncIterable<Buffer>) {
        left -= chunk.length;
        if (left < 0) throw tooLarge();
        chunks.push(chunk);
      }
      const content = Buffer.concat(chunks);
      if (part.fieldname === 'files' && content.length > 0)
        files.push({ name: part.filename ?? '', bytes: new Uint8Array(content) });
    }
  } catch (error) {
    if (error instanceof DoorpostError || (error as { statusCode?: number }).statusCode) throw error;
    // The form's parser says 'Boundary not found', 'Unexpected end of form' and the like.
    throw new DoorpostError('bad-request', `The form cannot be read: ${(error as Error).message}`, {
      accepted: 'multipart/form-data with a boundary, whole',
    });
  }
  return { fields, files };
}

const tooLarge = (): DoorpostError =>
  new DoorpostError(
    'too-large',
    `The files are larger than ${uploadLimits.bytes / 1024 / 1024} MiB together`,
    {
      field: 'files',
      accepted: `at most ${uploadLimits.bytes / 1024 / 1024} MiB together and ${uploadLimits.files} files; send more in parts`,
    },
  );
