import { useMemo } from 'react';
import { useStore } from 'zustand';
import { spotReadoutAt } from '../../camera/spotReadout.ts';
import {
  type PictureMode,
  useFigures,
  useFrameScene,
  useLayerGains,
  useSession,
  worldStore,
} from '../session/index.ts';
import { useRoom } from '../shell/useRoom.ts';
import { formatFigure, formatPercent, formatStops } from '../theme/index.ts';
import { describeCloseUpLoss, describeMeteredStop, describeSharpDepth } from './meteredStop.ts';
import { directLuxAt } from './meterLux.ts';
import { layerNitsAt } from './overlays/lightShare.ts';
import { pictureStore } from './pictureStore.ts';
import { StopsKey } from './StopsKey.tsx';
import { type KeptPicture, useFrameTools, useIsToolOpen } from './tools/frameToolsStore.ts';
import { spillFixture } from './tools/spillFixture.ts';
import { describeTrace, useTrace } from './traceStore.ts';

export interface MeterPoint {
  readonly u: number;
  readonly v: number;
}

interface MeterLineProps {
  readonly point: MeterPoint | null;
  readonly mode: PictureMode;
  readonly traced: boolean;
}

/** About a one degree spot in an 85 mm frame; it also averages the grain of a young trace. */
const SPOT_RADIUS_PX = 6;

/** The spot meter under the pointer, and what an incident meter at the subject says. */
export function MeterLine({ point, mode, traced }: MeterLineProps) {
  const { camera } = useFrameScene();
  const words = [describeMeteredStop(useFigures()), describeCloseUpLoss(camera), describeSharpDepth(camera)].filter(
    (text) => text !== '',
  );
  return (
    <div className="kg-meter">
      {point && traced ? (
        <p data-testid="spot">
          <SpotReading point={point} />
        </p>
      ) : mode === 'stops' ? (
        <StopsKey />
      ) : (
        <Hint traced={traced} />
      )}
      <p className="kg-meter-words" data-testid="metered-stop">
        {words.join(' \u00b7 ')}
      </p>
    </div>
  );
}

/** Where the top bar has no room for the state of the trace, it stands here until somebody meters. */
function Hint({ traced }: { readonly traced: boolean }) {
  const room = useRoom();
  const words = useTrace(describeTrace);
  if (room !== 'wide') {
    return (
      <p className="kg-quiet" data-testid="trace-state">
        {words}
      </p>
    );
  }
  return <p className="kg-quiet">{traced ? 'Point at the picture to meter a spot' : 'Quick picture, not metered'}</p>;
}

function SpotReading({ point }: { readonly point: MeterPoint }) {
  const scene = useFrameScene();
  const spill = useIsToolOpen('spill');
  const kept = useKeptUnder(point);
  const now = useStore(pictureStore, (state) => state.picture);
  useStore(pictureStore, (state) => state.revision);
  const lux = useLuxUnder(kept ? null : point);
  const picture = kept ?? now;
  if (picture === null) return null;
  const reading = spotReadoutAt(picture, point, kept?.camera ?? scene.camera, SPOT_RADIUS_PX);
  return (
    <>
      <span className="kg-label">{kept ? 'Before' : 'Spot'} </span>
      <span className="kg-figure">
        {formatFigure(reading.luminanceNits)}
        <span className="kg-unit">cd/m²</span>
      </span>
      <span className="kg-figure">
        {formatStops(reading.stopsFromMiddle)}
        <span className="kg-unit">stops from middle</span>
      </span>
      <span className="kg-figure">
        {formatPercent(reading.percentOfClip / 100)}
        <span className="kg-unit">% of clipping</span>
      </span>
      {spill && !kept ? (
        <SpillReading point={point} totalNits={reading.luminanceNits} />
      ) : (
        lux !== null && (
          <span className="kg-figure" data-testid="spot-lux" title="Incident, straight from the lights, without bounce">
            {formatFigure(lux)}
            <span className="kg-unit">lx direct</span>
          </span>
        )
      )}
    </>
  );
}

/** Anew when the pointer, the set or a light has moved, not at every refinement of the trace. */
function useLuxUnder(point: MeterPoint | null): number | null {
  const gains = useLayerGains();
  const key = useStore(worldStore, (state) => state.key);
  // biome-ignore lint/correctness/useExhaustiveDependencies: gains and key stand for the light and the set that is read.
  return useMemo(() => (point ? directLuxAt(point.u, point.v) : null), [point, gains, key]);
}

/** The kept picture where it is the one that is seen, left of the divider. */
function useKeptUnder(point: MeterPoint): KeptPicture | null {
  const comparing = useIsToolOpen('compare');
  const frameId = useSession((state) => state.frameId);
  const kept = useFrameTools((state) => state.kept.get(frameId));
  const share = useFrameTools((state) => state.splitShare);
  return comparing && kept && point.u < share ? kept : null;
}

/** The part of the spot that is the light of the fixture that is shown apart. */
function SpillReading({ point, totalNits }: { readonly point: MeterPoint; readonly totalNits: number }) {
  const { fixtures } = useFrameScene();
  const gains = useLayerGains();
  const film = useTrace((state) => state.film);
  const fixture = spillFixture(
    fixtures,
    useFrameTools((state) => state.spillFixtureId),
  );
  if (film === null || !fixture) return null;
  const nits = layerNitsAt(film, gains, film.layerIds.indexOf(fixture.id), point, SPOT_RADIUS_PX);
  return (
    <span className="kg-figure" data-testid="spot-spill">
      {formatPercent(totalNits > 0 ? nits / totalNits : 0)}
      <span className="kg-unit">% {fixture.name}</span>
    </span>
  );
}
