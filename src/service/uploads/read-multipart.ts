import { randomUUID } from 'node:crypto';
import { open } from 'node:fs/promises';
import path from 'node:path';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { DoorpostError } from '../../errors.js';
import type { FileOnDisk } from '../../exchange/parse-caseload.js';
import {
  makeUploadFolder,
  noRoomForUploads,
  removeLeftUploads,
  removeUploadFolder,
} from './upload-folder.js';

/** What a form with files becomes: its fields as text, and the files of its field `files`, which go with the answer. */
export interface Upload {
  readonly fields: Readonly<Record<string, string | undefined>>;
  readonly files: readonly FileOnDisk[];
}

export const uploadLimits = { bytes: 32 * 1024 * 1024, files: 12, fields: 20, fieldBytes: 1000, atOnce: 3 };

/**
 * Bodies on the routes that say `upload` are let in only so many at a time, after sign-in and role were checked. Forms
 * with files are counted as they stream to the disk and dropped at the limit; the web server holds none of them.
 */
export function readUploads(app: FastifyInstance): void {
  let held = 0;
  /** Requests whose sender has gone. */
  const over = new WeakSet<FastifyRequest>();
  app.decorateRequest('upload', null);
  app.addHook('onReady', () => removeLeftUploads(new Date()));
  app.addHook('preParsing', async (request, reply) => {
    if (!request.routeOptions.config.upload) return;
    if (held >= uploadLimits.atOnce)
      throw new DoorpostError(
        'too-many-requests',
        'Other files are being sent just now: try again in a minute',
      );
    held++;
    reply.raw.once('close', () => {
      held--;
      over.add(request);
    });
  });
  app.addHook('preValidation', async (request, reply) => {
    if (!request.routeOptions.config.upload || !request.isMultipart()) return;
    refuseAnnounced(request);
    const folder = await makeUploadFolder();
    const remove = () => void removeUploadFolder(folder).catch((error) => request.log.error(error));
    if (over.has(request)) remove();
    else reply.raw.once('close', remove);
    request.upload = await readParts(request, folder);
    request.body = request.upload.fields;
  });
}

function refuseAnnounced(request: FastifyRequest): void {
  const { bytes, fields, fieldBytes } = uploadLimits;
  if (Number(request.headers['content-length'] ?? 0) > bytes + fields * fieldBytes) throw tooLarge();
}

async function readParts(request: FastifyRequest, folder: string): Promise<Upload> {
  const fields: Record<string, string> = Object.create(null);
  const files: FileOnDisk[] = [];
  const { bytes, files: most, fields: mostFields, fieldBytes } = uploadLimits;
  let left = bytes;
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
      const file = path.join(folder, randomUUID());
      const length = await toDisk(part.file, file, left);
      left -= length;
      if (part.fieldname === 'files' && length > 0) files.push({ name: part.filename ?? '', path: file });
    }
  } catch (error) {
    const { statusCode, code } = error as { statusCode?: number; code?: string };
    if (error instanceof DoorpostError || statusCode) throw error;
    if (code === 'ENOSPC') throw noRoomForUploads();
    // The form's parser says 'Boundary not found', 'Unexpected end of form' and the like.
    throw new DoorpostError('bad-request', `The form cannot be read: ${(error as Error).message}`, {
      accepted: 'multipart/form-data with a boundary, whole',
    });
  }
  return { fields, files };
}

/** How long it was; refused where it is longer than `most`, what all files of a form may still have together. */
async function toDisk(chunks: AsyncIterable<Buffer>, file: string, most: number): Promise<number> {
  const handle = await open(file, 'wx', 0o600);
  let length = 0;
  try {
    for await (const chunk of chunks) {
      length += chunk.length;
      if (length > most) throw tooLarge();
      await handle.writeFile(chunk);
    }
  } finally {
    await handle.close();
  }
  return length;
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
