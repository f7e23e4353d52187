import { distance } from '../../core/vec3.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import { holdRecord } from './moveRecord.ts';
import { formatBearing, formatM, placementOf } from './placement.ts';
import type { Held } from './sheetHand.ts';
import type { WindowSize } from './sheetPx.ts';

const FROM_POINTER_PX = 18;
const ROOM_PX = 130;

interface HeldReadoutProps {
  readonly scene: FrameScene;
  readonly held: Held;
  readonly size: WindowSize;
}

/** The figures of what is in the hand, beside the pointer. */
export function HeldReadout({ scene, held, size }: HeldReadoutProps) {
  const [x, y] = held.pointerPx;
  const toLeft = x > size.widthPx - ROOM_PX;
  return (
    <dl
      className="kg-held"
      style={{
        ...(toLeft ? { right: size.widthPx - x + FROM_POINTER_PX } : { left: x + FROM_POINTER_PX }),
        top: Math.min(y + FROM_POINTER_PX, size.heightPx - 70),
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

function figuresOf(scene: FrameScene, { hold }: Held): (readonly [string, string])[] {
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
