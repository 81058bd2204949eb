import { mkdtemp, readdir, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { DoorpostError } from '../../errors.js';

const PREFIX = 'doorpost-upload-';
/** Longer than any upload is sent and read: what is older was left by a process that was killed. */
const LEFT_AFTER_MS = 3_600_000;

/** A folder of one upload, which nobody but this system user may open. */
export const makeUploadFolder = (): Promise<string> => mkdtemp(path.join(tmpdir(), PREFIX));

export const removeUploadFolder = (folder: string): Promise<void> =>
  // A file that is being written as its folder goes is met again a moment later.
  rm(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });

/** What a killed process left is removed; another's uploads of now are not touched. */
export async function removeLeftUploads(now: Date): Promise<void> {
  for (const name of await readdir(tmpdir())) {
    if (!name.startsWith(PREFIX)) continue;
    const folder = path.join(tmpdir(), name);
    const { mtimeMs } = await stat(folder).catch(() => ({ mtimeMs: now.getTime() }));
    // Another system user's is not ours to remove.
    if (now.getTime() - mtimeMs > LEFT_AFTER_MS) await removeUploadFolder(folder).catch(() => undefined);
  }
}

export const noRoomForUploads = (): DoorpostError =>
  new DoorpostError('disk-full', 'There is no room for uploads on the disk of temporary files');
