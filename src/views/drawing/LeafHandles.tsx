import type { LeafGrip } from './barnDoorHand.ts';
import type { SheetPoint } from './projection.ts';
import type { PxPoint } from './sheetPx.ts';

const REACH_PX = 9;

interface LeafHandlesProps {
  readonly grips: readonly LeafGrip[];
  readonly px: (p: SheetPoint) => PxPoint;
}

/** Small rings on the free edges of the selected light's barn doors, to swing them by. */
export function LeafHandles({ grips, px }: LeafHandlesProps) {
  return grips.map(({ fixtureId, leaf, hinge, tip }) => {
    const [hx, hy] = px(hinge);
    const [x, y] = px(tip);
    return (
      <g key={leaf} className="kg-leaf">
        <path d={`M${hx} ${hy}L${x} ${y}`} />
        <circle cx={x} cy={y} r={3.2} />
        <circle className="kg-leaf-hold" data-leaf-of={fixtureId} data-leaf={leaf} cx={x} cy={y} r={REACH_PX}>
          <title>{`${leaf.replace('Deg', '')} leaf: drag to swing it`}</title>
        </circle>
      </g>
    );
  });
}
