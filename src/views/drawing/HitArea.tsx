import { type KeyboardEvent, memo } from 'react';
import { pickRecord } from '../arrange/index.ts';
import { hoverRecord } from '../session/index.ts';
import type { SheetItem } from './sheet.ts';
import type { PxPoint } from './sheetPx.ts';

/** Fingers need this much to press on. */
const REACH_PX = 24;
const EDGE_REACH_PX = 10;

interface HitAreaProps {
  readonly item: SheetItem;
  /** Corners in pixels, for the `points` attribute. */
  readonly outline: string;
  /** The shorter side of what is drawn. */
  readonly spanPx: number;
  readonly selected: boolean;
}

/** The unseen area that takes hold of a record. Tables and backdrops are taken by their edge. */
export const HitArea = memo(function HitArea({ item, outline, spanPx, selected }: HitAreaProps) {
  const grown = item.heldInside ? Math.max(EDGE_REACH_PX, REACH_PX - spanPx) : REACH_PX;
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    pickRecord(item.recordId, { add: event.shiftKey, alone: event.altKey });
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: SVG has no button element
    <polygon
      className="kg-hold"
      data-record-id={item.recordId}
      role="button"
      tabIndex={0}
      aria-label={item.name}
      aria-pressed={selected}
      points={outline}
      strokeWidth={grown}
      pointerEvents={item.heldInside ? 'all' : 'stroke'}
      onKeyDown={onKeyDown}
      onPointerEnter={() => hoverRecord(item.recordId)}
      onPointerLeave={() => hoverRecord(null)}
    />
  );
});

interface LookPointProps {
  readonly item: SheetItem;
  readonly at: PxPoint;
  readonly emphasis: 'selected' | 'hovered' | undefined;
}

/** The point that a light, a sheet or the camera looks at; it can be dragged. Shown once its record is selected. */
export const LookPoint = memo(function LookPoint({ item, at: [x, y], emphasis }: LookPointProps) {
  if (emphasis !== 'selected') return null;
  return (
    <g className="kg-look" data-emphasis={emphasis}>
      <circle cx={x} cy={y} r={4.5} />
      <path
        d={`M${x - 8} ${y}H${x - 4.5}M${x + 4.5} ${y}H${x + 8}M${x} ${y - 8}V${y - 4.5}M${x} ${y + 4.5}V${y + 8}`}
      />
      <circle className="kg-look-hold" data-aim-of={item.recordId} cx={x} cy={y} r={REACH_PX / 2} />
    </g>
  );
});
