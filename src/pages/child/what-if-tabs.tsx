/** The what-if pages of one device: room for the next cast, several changes at once. */
export function WhatIfTabs(props: { base: string; deviceId: string; current: 'next' | 'several' }) {
  const { base, deviceId, current } = props;
  const tab = (page: typeof current, label: string) => (
    <li>
      <a
        href={`${base}/what-if/${page}?device=${encodeURIComponent(deviceId)}`}
        aria-current={page === current ? 'true' : undefined}
      >
        {label}
      </a>
    </li>
  );
  return (
    <ul class="tabs no-print">
      {tab('next', 'Room for the next cast')}
      {tab('several', 'Several at once')}
    </ul>
  );
}
