import type { FastifyRequest } from 'fastify';
import type { Spec } from '../../charts/fill-spec.js';
import { renderSlimSvg } from '../../charts/render-chart.js';

export interface Drawn {
  readonly svg: string;
  readonly narrow: boolean;
}

/** Width of a plot that is whole on a telephone held upright. */
export const NARROW_PX = 250;
export const NOT_DRAWN: Drawn = { svg: '', narrow: false };

/** Telephones say so. A desk whose window is narrow scrolls the wide chart: to draw both costs as much as the page. */
const isTelephone = ({ headers }: Pick<FastifyRequest, 'headers'>): boolean =>
  headers['sec-ch-ua-mobile'] === '?1' || /\bMobi/.test(headers['user-agent'] ?? '');

export async function drawFor(
  request: Pick<FastifyRequest, 'headers'>,
  chart: (widthPx?: number) => Spec,
): Promise<Drawn> {
  const narrow = isTelephone(request);
  return { svg: await renderSlimSvg(chart(narrow ? NARROW_PX : undefined)), narrow };
}

/** A chart drawn on the server, its numbers in a table or in words beside it. */
export function Chart({ drawn, label, dir }: { drawn: Drawn; label: string; dir?: 'ltr' }) {
  return (
    <figure
      class={drawn.narrow ? 'chart narrow' : 'chart'}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide chart scrolls sideways and must be reachable by keyboard.
      tabIndex={0}
      role="img"
      aria-label={label}
      dir={dir}
      dangerouslySetInnerHTML={{ __html: drawn.svg.replace('<svg ', '<svg aria-hidden="true" ') }}
    />
  );
}
