import { type MeasureId, measures } from '../../records/measure.js';

/** The what-if pages of one device: room for the next cast, a slider for each dimension, several changes at once. */
export function WhatIfTabs(props: {
  base: string;
  deviceId: string;
  limiting: readonly MeasureId[];
  current: MeasureId | 'next' | 'several' | null;
}) {
  const { base, deviceId, limiting, current } = props;
  const device = `device=${encodeURIComponent(deviceId)}`;
  return (
    <ul class="tabs no-print">
      <li>
        <a href={`${base}/what-if/next?${device}`} aria-current={current === 'next' ? 'true' : undefined}>
          Room for the next cast
        </a>
      </li>
      {limiting.map((m) => (
        <li key={m}>
          <a
            href={`${base}/what-if?${device}&measure=${m}`}
            aria-current={m === current ? 'true' : undefined}
          >
            {measures[m].label}
          </a>
        </li>
      ))}
      <li>
        <a
          href={`${base}/what-if/several?${device}`}
          aria-current={current === 'several' ? 'true' : undefined}
        >
          Several at once
        </a>
      </li>
    </ul>
  );
}
