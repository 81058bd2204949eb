import type { JSX } from 'preact';
import type { z } from 'zod';
import type { AboutField } from '../../records/about-field.js';
import { deviceEventRecord } from '../../records/device.js';
import { fieldKind, fieldLimits } from '../../records/field-limits.js';
import { eventFields, skinFields } from '../../records/record-fields.js';
import { skinCheckFields } from '../../records/skin-check.js';
import { InputField } from '../parts/form.js';

type Rest = Partial<Parameters<typeof InputField>[0]>;

/** A field as a form asks it: what it is called, how long and how large it may be, all by the list of the record's fields. */
const inputOf =
  <F extends string>(fields: Readonly<Record<F, AboutField>>, schemas: Readonly<Record<F, z.ZodType>>) =>
  ({ field, ...rest }: { field: F } & Rest): JSX.Element => {
    const { label, hint } = fields[field];
    const asks =
      fieldKind(schemas[field]) === 'number'
        ? { inputMode: 'decimal' as const, size: 6 }
        : fieldLimits(schemas[field]);
    return <InputField label={label} hint={hint} name={field} {...asks} {...rest} />;
  };

export const EventInput = inputOf(eventFields, deviceEventRecord.shape);
export const SkinInput = inputOf(skinFields, skinCheckFields.shape);
