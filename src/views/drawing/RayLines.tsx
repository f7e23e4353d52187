import type { SheetPoint } from './projection.ts';
import type { SheetRay } from './sheet.ts';
import type { PxPoint } from './sheetPx.ts';

const RING_PX = 3;

interface RayLinesProps {
  readonly rays: readonly SheetRay[];
  readonly px: (p: SheetPoint) => PxPoint;
}

/** The paths that prove the active finding, with a ring where each one turns. */
export function RayLines({ rays, px }: RayLinesProps) {
  return (
    <g className="kg-rays">
      {rays.map((ray, i) => (
        <polyline
          // biome-ignore lint/suspicious/noArrayIndexKey: rays have no names
          key={i}
          points={ray.points.map((p) => px(p).join(',')).join(' ')}
        />
      ))}
      <path d={rays.flatMap(({ turns }) => turns.map((turn) => ring(px(turn)))).join('')} />
    </g>
  );
}

const ring = ([x, y]: PxPoint): string =>
  `M${x - RING_PX} ${y}a${RING_PX} ${RING_PX} 0 1 0 ${2 * RING_PX} 0a${RING_PX} ${RING_PX} 0 1 0 ${-2 * RING_PX} 0`;
