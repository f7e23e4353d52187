import { Fragment } from 'react';
import { useCameraView, useFrame } from '../../session/index.ts';
import { useIsToolOpen } from '../tools/frameToolsStore.ts';
import { cropAspect, cropRect, type FrameRect, insetRect, SAFE_AREA_SHARES, WHOLE_FRAME } from './cropShapes.ts';

interface Props {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Delivery shapes over the picture. With one of them, what falls away is dimmed; with several, each has its outline. */
export function CropOverlay({ widthPx, heightPx }: Props) {
  const open = useIsToolOpen('crop');
  const { delivery } = useFrame();
  const { tanHalfWidth, tanHalfHeight } = useCameraView();
  if (!open || !delivery || widthPx === 0) return null;
  const frameAspect = tanHalfWidth / tanHalfHeight;
  const crops = delivery.crops.map((name) => ({ name, rect: cropRect(frameAspect, cropAspect(name)) }));
  const only = crops.length === 1 ? crops[0].rect : null;
  const px = (rect: FrameRect) => ({
    x: rect.left * widthPx,
    y: rect.top * heightPx,
    width: rect.width * widthPx,
    height: rect.height * heightPx,
  });
  const path = ({ x, y, width, height }: ReturnType<typeof px>): string => `M${x} ${y}h${width}v${height}h${-width}z`;
  const safeIn = crops.length > 0 ? crops.map(({ rect }) => rect) : [WHOLE_FRAME];
  return (
    <svg className="kg-crop" viewBox={`0 0 ${widthPx} ${heightPx}`} aria-hidden="true" data-testid="crop">
      {only && <path className="kg-crop-away" fillRule="evenodd" d={path(px(WHOLE_FRAME)) + path(px(only))} />}
      {crops.map(({ name, rect }, i) => {
        const box = px(rect);
        return (
          <Fragment key={name}>
            <rect className="kg-crop-under" {...box} />
            <rect className="kg-crop-edge" {...box} />
            {/* Shapes that share an edge of the frame would lay their names over one another. */}
            <text className="kg-crop-name" x={box.x + 8} y={box.y + 17 + stacked(crops, i) * 15}>
              {name}
            </text>
          </Fragment>
        );
      })}
      {delivery.safeAreas &&
        safeIn.map((rect) =>
          Object.entries(SAFE_AREA_SHARES).map(([area, share]) => (
            <Fragment key={`${area} ${rect.left} ${rect.top}`}>
              <rect className="kg-crop-safe-under" {...px(insetRect(rect, share))} />
              <rect className="kg-crop-safe" data-area={area} {...px(insetRect(rect, share))} />
            </Fragment>
          )),
        )}
    </svg>
  );
}

/** How many earlier shapes begin at the same corner. */
const stacked = (crops: readonly { readonly rect: FrameRect }[], index: number): number =>
  crops
    .slice(0, index)
    .filter(
      ({ rect }) =>
        Math.abs(rect.left - crops[index].rect.left) < 0.05 && Math.abs(rect.top - crops[index].rect.top) < 0.03,
    ).length;
