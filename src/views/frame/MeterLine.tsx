import { useStore } from 'zustand';
import { developParams, spotReadout } from '../../camera/develop.ts';
import { type PictureMode, useFigures, useFrameScene } from '../session/index.ts';
import { formatFigure, formatPercent, formatStops } from '../theme/index.ts';
import { describeMeteredStop } from './meteredStop.ts';
import { pictureStore } from './pictureStore.ts';

export interface MeterPoint {
  readonly u: number;
  readonly v: number;
}

interface MeterLineProps {
  readonly point: MeterPoint | null;
  readonly mode: PictureMode;
  readonly traced: boolean;
}

/** The spot meter under the pointer, and what an incident meter at the subject says. */
export function MeterLine({ point, traced }: MeterLineProps) {
  const metered = describeMeteredStop(useFigures());
  return (
    <div className="kg-meter">
      <p data-testid="spot">{point && traced ? <SpotReading point={point} /> : <SpotHint traced={traced} />}</p>
      <p className="kg-quiet" data-testid="metered-stop">
        {metered}
      </p>
    </div>
  );
}

const SpotHint = ({ traced }: { readonly traced: boolean }) => (
  <span className="kg-quiet">{traced ? 'Point at the picture to meter a spot' : 'Quick picture, not metered'}</span>
);

function SpotReading({ point }: { readonly point: MeterPoint }) {
  const { camera } = useFrameScene();
  const picture = useStore(pictureStore, (state) => state.picture);
  useStore(pictureStore, (state) => state.revision);
  if (picture === null) return null;
  const reading = spotReadout(picture.rgbNits, picture.widthPx, picture.heightPx, point, developParams(camera));
  return (
    <>
      <span className="kg-label">Spot </span>
      <span className="kg-figure">
        {formatFigure(reading.luminanceNits)}
        <span className="kg-unit">cd/m²</span>
      </span>
      <span className="kg-figure">
        {formatStops(reading.stopsFromMiddle)}
        <span className="kg-unit">stops from middle</span>
      </span>
      <span className="kg-figure">
        {formatPercent(reading.shareOfClip)}
        <span className="kg-unit">% of clipping</span>
      </span>
    </>
  );
}
