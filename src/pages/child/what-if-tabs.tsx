import { Tabs } from '../parts/layout.js';
import { childPath } from '../parts/paths.js';

/** The what-if pages of one device: room for the next cast, several changes at once. */
export function WhatIfTabs(props: { childId: string; deviceId: string; shown: 'next' | 'several' }) {
  const { childId, deviceId, shown } = props;
  const tab = (page: typeof shown, label: string) => {
    const path = `/what-if/${page}?device=${encodeURIComponent(deviceId)}`;
    return [childPath(childId, path), label, page === shown] as const;
  };
  return <Tabs of={[tab('next', 'Room for the next cast'), tab('several', 'Several at once')]} />;
}
