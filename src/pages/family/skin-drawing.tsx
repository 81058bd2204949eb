import type { Region } from '../../rules/fit-rule.js';

type Shape = 'leg' | 'hip' | 'trunk' | 'head' | 'hand';
const SHAPE_OF: Partial<Record<Region, Shape>> = {
  hip: 'hip',
  trunk: 'trunk',
  head: 'head',
  'wrist-hand': 'hand',
};

/** Plain outlines, one line each, with a ring wherever a device of this region usually marks (common practice, no source). */
const outlines: Readonly<Record<Shape, { readonly paths: readonly string[]; readonly rings: string }>> = {
  // A lower leg from the side, and the sole beside it.
  leg: {
    paths: [
      'M38 6c-4 22-6 46-2 66-6 8-10 12-8 20 2 6 10 8 20 8h40c8 0 9-8 2-11-8-4-18-6-24-16-2-4-3-10-2-16 3-18 4-34 2-51',
      'M128 14c-12 2-14 18-12 30 2 12 1 20-1 30-2 14 4 24 13 24s15-10 14-24c-1-10 1-18 4-30 3-14-4-32-18-30z',
    ],
    rings: '41,92 49,78 82,92 52,22 128,88 124,30',
  },
  // A baby on its back, legs apart.
  hip: {
    paths: [
      'M80 8a15 15 0 1 0 .1 0M62 40c-16 4-26 12-34 22M98 40c16 4 26 12 34 22M64 42c-4 16-4 24 2 34-16 0-30 2-38 14 2 8 6 8 10 8M96 42c4 16 4 24-2 34 16 0 30 2 38 14-2 8-6 8-10 8M66 76c8 8 20 8 28 0',
    ],
    rings: '80,82 60,76 100,76 66,46 94,46',
  },
  // A back from the neck to the hips.
  trunk: {
    paths: [
      'M66 6c0 10-4 12-22 18-6 20-4 34 0 44 2 12-2 22-6 34M94 6c0 10 4 12 22 18 6 20 4 34 0 44-2 12 2 22 6 34M80 12v80',
    ],
    rings: '46,34 114,34 48,60 112,60 44,90 116,90',
  },
  // A head from the side and from above.
  head: {
    paths: [
      'M60 12c-22 0-36 14-36 34 0 14 6 24 14 30v22h30v-12c10 2 14-2 12-12l6-4-6-14c2-26-6-44-20-44z',
      'M128 14c-16 0-24 16-24 34s8 34 24 34 24-16 24-34-8-34-24-34z',
    ],
    rings: '34,40 62,22 44,66 128,26 112,60 144,60',
  },
  // A forearm and hand from the palm.
  hand: {
    paths: [
      'M14 40c30 2 50 0 66-6 6-12 12-18 20-16-4 8-6 12-4 18h44c8 0 8 8 0 8 8 1 8 9 0 9 6 1 6 9-1 9 5 2 4 8-4 8H92c-10 8-24 8-40 8H14',
    ],
    rings: '30,42 30,74 82,38 84,70 98,28',
  },
};

/** Where to look, drawn. The words beside it say the same, so a reader of the screen is not told twice. */
export function SkinDrawing({ region }: { region: Region }) {
  const { paths, rings } = outlines[SHAPE_OF[region] ?? 'leg'];
  return (
    <svg class="skin-drawing" viewBox="0 0 160 108" aria-hidden="true" focusable="false">
      {paths.map((d) => (
        <path
          key={d}
          d={d}
          fill="none"
          stroke="#43505b"
          stroke-width="2.5"
          stroke-linecap="round"
          stroke-linejoin="round"
        />
      ))}
      {rings.split(' ').map((at) => (
        <Ring key={at} at={at.split(',')} />
      ))}
    </svg>
  );
}

const Ring = ({ at: [x, y] }: { at: readonly string[] }) => (
  <circle cx={x} cy={y} r="7" fill="none" stroke="#7a1f5c" stroke-width="2.5" />
);

/** Regions that share a drawing are drawn once. */
export const drawnOnce = (regions: readonly Region[]): readonly Region[] =>
  regions.filter((r, i) => regions.findIndex((x) => (SHAPE_OF[x] ?? 'leg') === (SHAPE_OF[r] ?? 'leg')) === i);
