import { readFileSync } from 'node:fs';
import { DoorpostError } from '../errors.js';
import type { FitRules } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';

/** The shipped fit rules, with a file of a clinic's own over them (as the service's GET /api/fit-rules/file writes it). */
export function readRules(file: string | undefined): FitRules {
  if (file === undefined) return loadRules();
  return loadRules(parsed(readFileSync(file, 'utf8'), file));
}

function parsed(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new DoorpostError('invalid-file', `the fit rules in ${file} are not JSON`, {
      file,
      accepted: '[{"id": "solid-afo", "dimensions": [{"measure": "foot_length", "allowanceMm": {...}}]}]',
    });
  }
}
