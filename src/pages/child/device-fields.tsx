import { deviceLabel } from '../../charts/device-label.js';
import { decimalAgeYears } from '../../records/age.js';
import type { Device } from '../../records/device.js';
import { measures } from '../../records/measure.js';
import { deviceFields } from '../../records/record-fields.js';
import type { Child } from '../../records/records.js';
import { usualAllowance } from '../../rules/dimension-limits.js';
import { type FamilyRule, type FitDimension, holdsHips, isBuiltIn, sideBarOf } from '../../rules/fit-rule.js';
import { CellInput, InputField, SelectField } from '../parts/form.js';
import { usePage } from '../parts/page-context.js';
import type { Fields } from '../parts/pages-of.js';
import { Table } from '../parts/table.js';
import { asksPlate, plates, sideNames, sizeField, typedSidesOf } from './device-form.js';

/** What a form about a device is opened with, and shown again with after a refusal. */
export interface DeviceAsked {
  readonly child: Child;
  readonly rule: FamilyRule;
  readonly typed: Fields;
  readonly errors: Readonly<Record<string, string>>;
  readonly refused: string;
  readonly others: readonly Device[];
}

/**
 * Everything that is known of a device when it is cast or put right: one form for all three pages. `next`: of a device
 * known, not fitted yet, and what it replaces is said.
 */
export function DeviceFields(props: DeviceAsked & { pairs?: boolean; next?: boolean }) {
  const { child, rule, typed, errors, others, pairs = false, next } = props;
  const { today, format } = usePage();
  const about = (name: string) => ({ name, error: errors[name] && `Accepted is ${errors[name]}` });
  const sides = typedSidesOf(rule, pairs);
  return (
    <>
      <div class="row top-aligned">
        <SelectField
          {...about('side')}
          label={deviceFields.side.label}
          required
          of={[
            ...(sides.length > 1 ? [['', 'choose'] as const] : []),
            ...sides.map((s) => [s, sideNames[s]] as const),
          ]}
          chosen={typed.side}
        />
        {asksPlate(rule) && (
          <SelectField
            {...about('footplate')}
            label={deviceFields.footplate.label}
            of={Object.entries(plates)}
            chosen={typed.footplate}
          />
        )}
        <InputField
          {...about('castDate')}
          label={deviceFields.castDate.label}
          type="date"
          required
          value={typed.castDate ?? today}
          min={child.birthDate}
          max={today}
        />
        {!next && (
          <InputField
            {...about('fittedDate')}
            label={deviceFields.fittedDate.label}
            hint={deviceFields.fittedDate.hint}
            type="date"
            value={typed.fittedDate}
            max={today}
          />
        )}
      </div>
      <div class="row top-aligned">
        {!next && (
          <SelectField
            {...about('replaces')}
            label={deviceFields.replaces.label}
            of={[
              ['', 'nothing'],
              ...others.map((d) => [d.id, `${deviceLabel(d)}, cast ${format.date(d.castDate)}`] as const),
            ]}
            chosen={typed.replaces}
          />
        )}
        {holdsHips(rule) &&
          (['hipAngleFrom', 'hipAngleTo'] as const).map((field) => (
            <InputField
              key={field}
              {...about(field)}
              label={deviceFields[field].label}
              inputMode="decimal"
              value={typed[field]}
              size={6}
            />
          ))}
        <InputField {...about('funder')} label="Paid by" value={typed.funder} maxLength={80} size={20} />
      </div>
      <Rooms {...props} />
    </>
  );
}

/** Room dimension by dimension: what is built in, how far bars can follow, where the maker sets an end. */
function Rooms({ child, rule, typed, errors }: DeviceAsked) {
  const { format, today } = usePage();
  const bars = rule.dimensions.some(sideBarOf);
  const ageYears = decimalAgeYears(child.birthDate, typed.castDate || today);
  const footplate = typed.footplate === 'behind-toes' ? 'behind-toes' : 'full';
  const usual = (d: FitDimension) => usualAllowance(d, { footplate }, ageYears);
  const field = (d: FitDimension, name: string, what: string, hint = '') => (
    <CellInput
      name={name}
      label={`${measures[d.measure].label}: ${what}`}
      hint={hint}
      error={errors[name] && `Accepted is ${errors[name]}`}
      size={6}
      value={typed[name]}
    />
  );
  const bar = (d: FitDimension) => {
    const own = sideBarOf(d);
    if (!own) return null;
    const holes = own.stepMm ? `, in holes of ${format.stated(own.stepMm.value)}` : '';
    const hint = `usual ${format.stated(own.upToMm.value)}${holes}; 0 without`;
    return field(d, sizeField('extensionRangeMm', d.measure), 'side bar can be moved by', hint);
  };
  return (
    <fieldset>
      <legend>Room, in mm</legend>
      <p class="hint">
        Growth allowed since the cast: of a plate the toe room built in, of a joint axis or an edge how far
        the body may grow past it. Empty takes the usual one of the{' '}
        <a href={`/fit-rules/${rule.id}`}>fit rule</a>
        {bars && '. How far a side bar can be moved must be said: without it no travel counts'}. A maker's
        limit is the largest size the device takes, where the maker states one.
      </p>
      <Table
        class="stack rooms-typed"
        scroll="Room by dimension"
        rows={rule.dimensions}
        columns={[
          ['Dimension', (d) => measures[d.measure].label],
          [
            'Growth allowed',
            (d) =>
              field(
                d,
                sizeField('allowancesMm', d.measure),
                'growth allowed',
                `usual ${format.stated(usual(d))}${isBuiltIn(d, footplate) ? ', built in' : ''}`,
              ),
          ],
          bars && ['Side bar can be moved by', bar],
          ["Maker's limit", (d) => field(d, sizeField('limitsMm', d.measure), "maker's limit")],
        ]}
      />
    </fieldset>
  );
}
