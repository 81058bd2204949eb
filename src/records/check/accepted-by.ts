import type { z } from 'zod';

type Facts = Partial<Record<'values' | 'origin' | 'minimum' | 'maximum' | 'expected', unknown>>;

/** What a record's field takes, in the words of every door: 'loose, good, tight, outgrown', 'at most 400 characters'. */
export function acceptedBy(issue: Pick<z.core.$ZodIssue, 'code' | 'message'>): string {
  const { code, message, values, origin, minimum, maximum, expected }: typeof issue & Facts = issue;
  if (code === 'invalid_value' && Array.isArray(values)) return values.join(', ');
  if (code === 'invalid_type' && expected === 'int') return 'a whole number';
  if (code === 'invalid_type' && expected === 'number') return 'a number';
  if (code === 'too_big' && origin === 'string') return `at most ${maximum} characters`;
  if (code === 'too_small' && origin === 'string')
    return minimum === 1 ? 'a few words' : `${minimum} characters or more`;
  if (code === 'too_big') return `at most ${maximum}`;
  if (code === 'too_small') return `at least ${minimum}`;
  return message.replace(/ (is|are) accepted$/, '');
}
