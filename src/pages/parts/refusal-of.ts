import { DoorpostError } from '../../errors.js';

const SAID_ON_THE_FORM = ['invalid-value', 'already-there', 'not-signed-in', 'too-many-requests'];

/** Why a write was refused, in the words every other door has for it, to stand above the form; '' when it was done. */
export async function refusalOf(write: Promise<unknown>): Promise<string> {
  try {
    await write;
    return '';
  } catch (error) {
    if (error instanceof DoorpostError && SAID_ON_THE_FORM.includes(error.code)) return error.message;
    throw error;
  }
}
