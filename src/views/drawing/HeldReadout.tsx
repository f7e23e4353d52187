import { distance } from '../../core/vec3.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import { holdRecord } from './moveRecord.ts';
import { formatBearing, formatM, placementOf } from './placement.ts';
import type { Held } from './sheetGestures.ts';
import type { PxPoint, WindowSize } from './sheetPx.ts';

const FROM_POINTER_PX = 18;
/** Room that the figures need. */
const ROOM = { widthPx: 150, heightPx: 76 };

interface HeldReadoutProps {
  readonly scene: FrameScene;
  readonly held: Held;
  readonly subjectPx: PxPoint;
  readonly size: WindowSize;
}

/** The figures of what is in the hand, beside the pointer on the side away from the subject where there is room. */
export function HeldReadout({ scene, held, subjectPx, size }: HeldReadoutProps) {
  const [x, y] = held.pointerPx;
  const roomRight = x + FROM_POINTER_PX + ROOM.widthPx <= size.widthPx;
  const roomLeft = x - FROM_POINTER_PX - ROOM.widthPx >= 0;
  const roomAbove = y - FROM_POINTER_PX - ROOM.heightPx >= 0;
  const roomBelow = y + FROM_POINTER_PX + ROOM.heightPx <= size.heightPx;
  const right = x >= subjectPx[0] ? roomRight || !roomLeft : roomRight && !roomLeft;
  const above = y <= subjectPx[1] ? roomAbove || !roomBelow : roomAbove && !roomBelow;
  return (
    <dl
      className="kg-held"
      style={{
        ...(right ? { left: x + FROM_POINTER_PX } : { right: size.widthPx - x + FROM_POINTER_PX }),
        ...(above ? { bottom: size.heightPx - y + FROM_POINTER_PX } : { top: y + FROM_POINTER_PX }),
      }}
    >
      {figuresOf(scene, held).map(([label, figure]) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd className="kg-figure">{figure}</dd>
        </div>
      ))}
    </dl>
  );
}

function figuresOf(scene: FrameScene, { hold, leaf }: Held): (readonly [string, string])[] {
  if (leaf) return [[`${leaf.leaf.replace('Deg', '')} leaf`, `${leaf.openDeg.toFixed(0)}° open`]];
  const placement = placementOf(scene, hold.recordId);
  if (!placement) return [];
  if (hold.part === 'aim') {
    const aimM = holdRecord(scene, hold.recordId, 'aim')?.aimM;
    if (!aimM) return [];
    return [
      ['throw', formatM(distance(placement.positionM, aimM))],
      ['aim up', formatM(aimM[1])],
    ];
  }
  return [
    ['away', formatM(placement.horizontalDistanceM)],
    ['up', formatM(placement.heightM)],
    ...(placement.bearingDeg === null ? [] : [['bearing', formatBearing(placement.bearingDeg)] as const]),
  ];
}
