import { deviceLabel } from '../../charts/device-label.js';
import { decimalAgeYears } from '../../records/age.js';
import type { Device } from '../../records/device.js';
import { measures } from '../../records/measure.js';
import type { Child } from '../../records/records.js';
import { usualAllowance } from '../../rules/dimension-limits.js';
import { type FamilyRule, type FitDimension, isBuiltIn, sideBarOf } from '../../rules/fit-rule.js';
import { ScrollBox } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import type { Fields } from '../parts/route-types.js';
import {
  allowanceField,
  asksPlate,
  barField,
  limitField,
  plates,
  sideNames,
  typedSidesOf,
} from './device-form.js';

export interface DeviceFieldsProps {
  readonly child: Child;
  readonly rule: FamilyRule;
  readonly typed: Fields;
  readonly errors: Readonly<Record<string, string>>;
  readonly others: readonly Device[];
  readonly pairs: boolean;
  /** The next one of a device known: not fitted yet, and what it replaces is said. */
  readonly next?: boolean;
}

/** Everything that is known of a device when it is cast or put right: one form for all three pages. */
export function DeviceFields(props: DeviceFieldsProps) {
  const { child, rule, typed, errors, others, pairs, next } = props;
  const { today, format } = usePage();
  const about = (name: string) => ({
    id: name,
    name,
    class: errors[name] ? 'bad' : undefined,
    'aria-invalid': errors[name] ? ('true' as const) : undefined,
    'aria-describedby': errors[name] ? `${name}-error` : undefined,
  });
  const wrong = (name: string) =>
    errors[name] && (
      <span class="hint warn" id={`${name}-error`}>
        Accepted is {errors[name]}
      </span>
    );
  const sides = typedSidesOf(rule, pairs);
  return (
    <>
      <div class="row top-aligned">
        <p class="field">
          <label for="side">Side</label>
          <select {...about('side')} required>
            {sides.length > 1 && <option value="">choose</option>}
            {sides.map((s) => (
              <option key={s} value={s} selected={s === typed.side}>
                {sideNames[s]}
              </option>
            ))}
          </select>
          {wrong('side')}
        </p>
        {asksPlate(rule) && (
          <p class="field">
            <label for="footplate">Footplate</label>
            <select {...about('footplate')}>
              {(Object.keys(plates) as Device['footplate'][]).map((p) => (
                <option key={p} value={p} selected={p === typed.footplate}>
                  {plates[p]}
                </option>
              ))}
            </select>
          </p>
        )}
        <p class="field">
          <label for="castDate">Cast or scanned on</label>
          <input
            {...about('castDate')}
            type="date"
            required
            value={typed.castDate ?? today}
            min={child.birthDate}
            max={today}
          />
          {wrong('castDate')}
        </p>
        {!next && (
          <p class="field">
            <label for="fittedDate">
              Fitted on <small>empty while it is being made</small>
            </label>
            <input {...about('fittedDate')} type="date" value={typed.fittedDate} max={today} />
            {wrong('fittedDate')}
          </p>
        )}
      </div>
      <div class="row top-aligned">
        {!next && (
          <p class="field">
            <label for="replaces">Takes the place of</label>
            <select {...about('replaces')}>
              <option value="">nothing</option>
              {others.map((d) => (
                <option key={d.id} value={d.id} selected={d.id === typed.replaces}>
                  {deviceLabel(d)}, cast {format.date(d.castDate)}
                </option>
              ))}
            </select>
            {wrong('replaces')}
          </p>
        )}
        <p class="field">
          <label for="funder">Paid by</label>
          <input {...about('funder')} value={typed.funder} maxLength={80} size={20} />
        </p>
      </div>
      <Rooms {...props} about={about} wrong={wrong} />
    </>
  );
}

/** Room dimension by dimension: what is built in, how far bars can follow, where the maker sets an end. */
function Rooms({
  child,
  rule,
  typed,
  about,
  wrong,
}: DeviceFieldsProps & {
  about: (name: string) => Record<string, unknown>;
  wrong: (name: string) => preact.ComponentChildren;
}) {
  const { format, today } = usePage();
  const bars = rule.dimensions.some(sideBarOf);
  const ageYears = decimalAgeYears(child.birthDate, typed.castDate || today);
  const footplate = typed.footplate === 'behind-toes' ? 'behind-toes' : 'full';
  const usual = (d: FitDimension) => usualAllowance(d, { footplate }, ageYears);
  const field = (name: string, label: string, hint: string) => (
    <td data-label={label.replace(/^.*: /, '')}>
      <input
        {...about(name)}
        inputMode="decimal"
        autocomplete="off"
        size={6}
        value={typed[name]}
        aria-label={label}
      />
      <span class="hint"> {hint}</span>
      {wrong(name)}
    </td>
  );
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
      <ScrollBox label="Room by dimension">
        <table class="stack rooms-typed">
          <thead>
            <tr>
              <th scope="col">Dimension</th>
              <th scope="col">Growth allowed</th>
              {bars && <th scope="col">Side bar can be moved by</th>}
              <th scope="col">Maker's limit</th>
            </tr>
          </thead>
          <tbody>
            {rule.dimensions.map((d) => {
              const { label } = measures[d.measure];
              const bar = sideBarOf(d);
              return (
                <tr key={d.measure}>
                  <th scope="row">{label}</th>
                  {field(
                    allowanceField(d.measure),
                    `${label}: growth allowed`,
                    `usual ${format.stated(usual(d))}${isBuiltIn(d, footplate) ? ', built in' : ''}`,
                  )}
                  {bars &&
                    (bar ? (
                      field(
                        barField(d.measure),
                        `${label}: side bar can be moved by`,
                        `usual ${format.stated(bar.upToMm.value)}${bar.stepMm ? `, in holes of ${format.stated(bar.stepMm.value)}` : ''}; 0 without`,
                      )
                    ) : (
                      <td class="none">–</td>
                    ))}
                  {field(limitField(d.measure), `${label}: maker's limit`, '')}
                </tr>
              );
            })}
          </tbody>
        </table>
      </ScrollBox>
    </fieldset>
  );
}
