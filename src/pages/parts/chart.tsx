import type { Spec } from '../../charts/fill-spec.js';
import { renderSvg } from '../../charts/render-chart.js';
import { slimSvg } from '../../charts/slim-svg.js';

/** The same chart for a desk and for a telephone held upright. */
export interface Drawn {
  readonly wide: string;
  readonly narrow: string;
}

/** Width of a plot that is whole on a telephone held upright. */
export const NARROW_PX = 250;
export const NOT_DRAWN: Drawn = { wide: '', narrow: '' };

export async function drawBoth(chart: (widthPx?: number) => Spec): Promise<Drawn> {
  const [wide, narrow] = await Promise.all([renderSvg(chart()), renderSvg(chart(NARROW_PX))]);
  return { wide: slimSvg(wide), narrow: slimSvg(narrow) };
}

/** A chart drawn on the server; with a specification it becomes interactive where pointer or keyboard touches it. */
export function Chart(props: { drawn: Drawn; label: string; spec?: string; id?: string }) {
  const { drawn, label, spec, id } = props;
  return (
    <>
      {(['wide', 'narrow'] as const).map((size) => (
        <figure
          key={size}
          class={`chart ${size}`}
          // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide chart scrolls sideways and must be reachable by keyboard.
          tabIndex={0}
          role="img"
          aria-label={label}
          data-chart={id}
          data-spec={size === 'wide' ? spec : undefined}
          dangerouslySetInnerHTML={{ __html: drawn[size].replace('<svg ', '<svg aria-hidden="true" ') }}
        />
      ))}
    </>
  );
}
