import { deviceLabel, familyLabel } from '../../charts/device-label.js';
import { type Device, type DeviceEvent, endReasons, familyIds } from '../../records/device.js';
import { type MeasureId, measures } from '../../records/measure.js';
import type { Child } from '../../records/records.js';
import type { DeviceView } from '../../service/child-view/load-child.js';
import { endReasonNames, eventNames } from '../../words/event-names.js';
import { seriesText } from '../parts/format.js';
import { Csrf, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';
import { DeviceCard } from './device-card.js';

/** One device: what was done to it, a verdict on its fit, an adjustment, its end. */
export function DevicePage(props: {
  context: PageContext;
  child: Child;
  device: Device;
  view: DeviceView | null;
  events: readonly DeviceEvent[];
  limiting: readonly MeasureId[];
  error: string;
}) {
  const { context, child, device, view, events, limiting, error } = props;
  const { format, today } = context;
  const base = `/children/${encodeURIComponent(child.id)}`;
  const action = `${base}/devices/${encodeURIComponent(device.id)}/events`;
  const day = (id: string) => (
    <p class="field">
      <label for={id}>Date</label>
      <input id={id} name="date" type="date" required value={today} min={device.castDate} max={today} />
    </p>
  );
  const dimension = (id: string, whole: string) => (
    <p class="field">
      <label for={id}>Dimension</label>
      <select id={id} name="measure">
        {whole && <option value="">{whole}</option>}
        {limiting.map((m) => (
          <option key={m} value={m}>
            {measures[m].label}
          </option>
        ))}
      </select>
    </p>
  );
  return (
    <Layout title={deviceLabel(device)} context={context}>
      <p>
        <a href={base}>{child.name || child.id}</a>
      </p>
      <h1>{deviceLabel(device)}</h1>
      {error && (
        <p class="error" role="alert">
          {error}
        </p>
      )}
      <div class="cards">
        {view && <DeviceCard context={context} childId={child.id} view={view} detail={false} />}
        <div>
          <section>
            <h2>Judge the fit</h2>
            <form method="post" action={action}>
              <Csrf context={context} />
              <input type="hidden" name="kind" value="verdict" />
              <fieldset class="row">
                <legend>Fit today</legend>
                {(['loose', 'good', 'tight', 'outgrown'] as const).map((v) => (
                  <label key={v}>
                    <input type="radio" name="verdict" value={v} required /> {v}
                  </label>
                ))}
              </fieldset>
              <div class="row">
                {dimension('verdict-measure', 'the whole device')}
                {day('verdict-date')}
                <p>
                  <button type="submit" class="main-action">
                    Save verdict
                  </button>
                </p>
              </div>
              <p class="hint">
                A verdict is evidence on this device's real limit; the date moves with it. Redness that lasts
                over 20 minutes outranks every date.
              </p>
            </form>
          </section>
          <section>
            <h2>Adjusted</h2>
            <form method="post" action={action} class="row">
              <Csrf context={context} />
              <input type="hidden" name="kind" value="adjusted" />
              {dimension('adjusted-measure', '')}
              <p class="field">
                <label for="change">Room gained, mm</label>
                <input id="change" name="change" inputMode="decimal" required size={6} />
              </p>
              <p class="field">
                <label for="adjustment">How</label>
                <select id="adjustment" name="adjustment">
                  {(['side-bar', 'relief', 'trim', 'relocated-joint', 'strap', 'pad', 'other'] as const).map(
                    (a) => (
                      <option key={a} value={a}>
                        {a.replace('-', ' ')}
                      </option>
                    ),
                  )}
                </select>
              </p>
              {day('adjusted-date')}
              <p>
                <button type="submit">Save adjustment</button>
              </p>
            </form>
          </section>
          <section>
            <h2>Something else</h2>
            <form method="post" action={action} class="row">
              <Csrf context={context} />
              <p class="field">
                <label for="kind">What</label>
                <select id="kind" name="kind">
                  {(['delivered', 're-cast', 'broken', 'lost', 'retired'] as const).map((k) => (
                    <option key={k} value={k}>
                      {eventNames[k]}
                    </option>
                  ))}
                </select>
              </p>
              <p class="field">
                <label for="endReason">Why no longer worn</label>
                <select id="endReason" name="endReason">
                  <option value="">not said</option>
                  {endReasons.map((r) => (
                    <option key={r} value={r}>
                      {endReasonNames[r]}
                    </option>
                  ))}
                </select>
              </p>
              {day('other-date')}
              <p class="field">
                <label for="note">Note</label>
                <input id="note" name="note" maxLength={300} />
              </p>
              <p>
                <button type="submit">Save</button>
              </p>
            </form>
          </section>
        </div>
      </div>
      <section>
        <h2>What was recorded</h2>
        {events.length === 0 ? (
          <p>Nothing since the cast.</p>
        ) : (
          <ul>
            {events
              .toSorted((a, b) => b.date.localeCompare(a.date))
              .map((e) => (
                <li key={e.id}>
                  {format.date(e.date)}: {eventNames[e.kind]}
                  {e.endReason && `, ${endReasonNames[e.endReason]}`}
                  {e.verdict && `, ${e.verdict}`}
                  {e.measure && ` (${seriesText({ measure: e.measure, side: e.side ?? 'none' })})`}
                  {e.changeMm !== null && `, ${e.changeMm > 0 ? '+' : ''}${format.number(e.changeMm, 1)} mm`}
                  {e.adjustment && `, ${e.adjustment.replace('-', ' ')}`}
                  {e.note && `. ${e.note}`}
                </li>
              ))}
          </ul>
        )}
      </section>
    </Layout>
  );
}

export function NewDevicePage(props: {
  context: PageContext;
  child: Child;
  typed: Readonly<Record<string, string>>;
  error: string;
}) {
  const { context, child, typed, error } = props;
  const { today } = context;
  const base = `/children/${encodeURIComponent(child.id)}`;
  return (
    <Layout title="New device" context={context}>
      <p>
        <a href={base}>{child.name || child.id}</a>
      </p>
      <h1>New device</h1>
      {error && (
        <p class="error" role="alert">
          {error}
        </p>
      )}
      <form method="post" action={`${base}/devices`} class="card">
        <Csrf context={context} />
        <div class="row">
          <p class="field">
            <label for="family">Family</label>
            <select id="family" name="family" autofocus>
              {familyIds.map((f) => (
                <option key={f} value={f} selected={f === typed.family}>
                  {familyLabel(f)}
                </option>
              ))}
            </select>
          </p>
          <p class="field">
            <label for="side">Side</label>
            <select id="side" name="side">
              {(['left', 'right', 'both', 'none'] as const).map((s) => (
                <option key={s} value={s} selected={s === typed.side}>
                  {s === 'none' ? 'none (trunk or head)' : s}
                </option>
              ))}
            </select>
          </p>
          <p class="field">
            <label for="footplate">Footplate</label>
            <select id="footplate" name="footplate">
              {(['full', 'behind-toes', 'none'] as const).map((s) => (
                <option key={s} value={s} selected={s === typed.footplate}>
                  {s === 'behind-toes' ? 'ends behind the toes' : s}
                </option>
              ))}
            </select>
          </p>
          <p class="field">
            <label for="castDate">Cast or scanned on</label>
            <input
              id="castDate"
              name="castDate"
              type="date"
              required
              value={typed.castDate ?? today}
              min={child.birthDate}
              max={today}
            />
          </p>
          <p class="field">
            <label for="fittedDate">
              Fitted on <small>empty while it is being made</small>
            </label>
            <input id="fittedDate" name="fittedDate" type="date" value={typed.fittedDate} max={today} />
          </p>
        </div>
        <p class="hint">
          Allowances come from the family's <a href="/fit-rules">fit rule</a>. What if you chose another
          allowance? Ask the what-if page of the device after saving.
        </p>
        <button type="submit" class="main-action">
          Save device
        </button>
      </form>
    </Layout>
  );
}
