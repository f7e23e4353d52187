import { type RefObject, useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { developParams } from '../../../camera/develop.ts';
import { spotReadoutAt } from '../../../camera/spotReadout.ts';
import { applyMatrix3 } from '../../../core/matrix3.ts';
import { useFrameScene } from '../../session/index.ts';
import { formatFigure, formatPercent, formatStops } from '../../theme/index.ts';
import type { MeterPoint } from '../MeterLine.tsx';
import { pictureStore } from '../pictureStore.ts';
import { useIsToolOpen } from '../tools/frameToolsStore.ts';
import { loupePlace } from './loupePlace.ts';

interface Props {
  readonly point: MeterPoint | null;
  readonly canvasRef: RefObject<HTMLCanvasElement | null>;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly traced: boolean;
}

/** Pixels of the film across the loupe, odd so that one is in the middle, and how large each is drawn. */
const SEEN_PX = 19;
const SCALE = 9;
export const LOUPE_PX = SEEN_PX * SCALE;

/** Traced pixels under the pointer, enlarged without smoothing, with the light of the one in the middle. */
export function Loupe({ point, canvasRef, widthPx, heightPx, traced }: Props) {
  const open = useIsToolOpen('loupe');
  if (!open || !point || !traced) return null;
  return <Glass point={point} canvasRef={canvasRef} widthPx={widthPx} heightPx={heightPx} />;
}

function Glass({ point, canvasRef, widthPx, heightPx }: Omit<Props, 'traced' | 'point'> & { point: MeterPoint }) {
  const ref = useRef<HTMLCanvasElement>(null);
  const { camera } = useFrameScene();
  const picture = useStore(pictureStore, (state) => state.picture);
  const revision = useStore(pictureStore, (state) => state.revision);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the revision stands for what the traced canvas shows.
  useEffect(() => {
    const from = canvasRef.current;
    const context = ref.current?.getContext('2d', { alpha: false });
    if (!from || !context) return;
    const x = Math.floor(point.u * from.width) - (SEEN_PX - 1) / 2;
    const y = Math.floor(point.v * from.height) - (SEEN_PX - 1) / 2;
    context.imageSmoothingEnabled = false;
    context.fillStyle = '#0d0c0b';
    context.fillRect(0, 0, LOUPE_PX, LOUPE_PX);
    context.drawImage(from, x, y, SEEN_PX, SEEN_PX, 0, 0, LOUPE_PX, LOUPE_PX);
    const middle = ((SEEN_PX - 1) / 2) * SCALE;
    context.strokeStyle = '#0d0c0b';
    context.strokeRect(middle - 1.5, middle - 1.5, SCALE + 3, SCALE + 3);
    context.strokeStyle = '#e9e2d6';
    context.strokeRect(middle - 0.5, middle - 0.5, SCALE + 1, SCALE + 1);
  }, [point, canvasRef, revision]);

  if (picture === null) return null;
  const reading = spotReadoutAt(picture, point, camera);
  const x = Math.min(picture.widthPx - 1, Math.max(0, Math.floor(point.u * picture.widthPx)));
  const y = Math.min(picture.heightPx - 1, Math.max(0, Math.floor(point.v * picture.heightPx)));
  const i = (y * picture.widthPx + x) * 3;
  const { rgbNits } = picture;
  const sensor = applyMatrix3(developParams(camera).sensorFromNits, [rgbNits[i], rgbNits[i + 1], rgbNits[i + 2]]);
  const { leftPx, topPx } = loupePlace(point.u * widthPx, point.v * heightPx, widthPx, heightPx);
  return (
    <div className="kg-loupe" data-testid="loupe" style={{ left: leftPx, top: topPx, width: LOUPE_PX + 2 }}>
      <canvas ref={ref} width={LOUPE_PX} height={LOUPE_PX} />
      <dl>
        <div>
          <dt>Pixel</dt>
          <dd>
            {x + 1}, {y + 1}
          </dd>
        </div>
        <div>
          <dt>cd/m²</dt>
          <dd>{formatFigure(reading.luminanceNits)}</dd>
        </div>
        <div>
          <dt>Stops</dt>
          <dd>{formatStops(reading.stopsFromMiddle)}</dd>
        </div>
        <div>
          <dt>R G B, % of clipping</dt>
          <dd data-testid="loupe-rgb">{sensor.map((share) => formatPercent(Math.max(0, share))).join('  ')}</dd>
        </div>
      </dl>
    </div>
  );
}
