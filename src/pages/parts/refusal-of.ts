import { DoorpostError } from '../../errors.js';

/** Why a write was refused, in the words every other door has for it, to stand above the form; '' when it was done. */
export async function refusalOf(write: Promise<unknown>): Promise<string> {
  try {
    await write;
    return '';
  } catch (error) {
    if (error instanceof DoorpostError && (error.code === 'invalid-value' || error.code === 'already-there'))
      return error.message;
    throw error;
  }
}
