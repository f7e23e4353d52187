import { lazy, Suspense, useEffect, useRef, useState } from 'react';
import { ReferenceOverlay, usePhotoDrop } from '../reference/index.ts';
import { useCameraView, useDocument, useServices, useSession } from '../session/index.ts';
import { ViewBoundary } from '../shell/ViewBoundary.tsx';
import { ExposureBar } from './ExposureBar.tsx';
import './frame.css';
import { FrameFoot } from './FrameFoot.tsx';
import { MeterLine, type MeterPoint } from './MeterLine.tsx';
import { CompareOverlay } from './overlays/CompareOverlay.tsx';
import { CropOverlay } from './overlays/CropOverlay.tsx';
import { Loupe } from './overlays/Loupe.tsx';
import './overlays/overlays.css';
import { SharpOverlay } from './overlays/SharpOverlay.tsx';
import { SpillOverlay } from './overlays/SpillOverlay.tsx';
import { PinOverlay } from './PinOverlay.tsx';
import { NoLight } from './placing/NoLight.tsx';
import { PlacingHand } from './placing/PlacingHand.tsx';
import { pressFrame } from './placing/pressFrame.ts';
import { TracedCanvas } from './TracedCanvas.tsx';
import { FrameToolRow } from './tools/FrameToolRow.tsx';
import { useIsToolOpen } from './tools/frameToolsStore.ts';
import { ToolOptions } from './tools/ToolOptions.tsx';
import { useForgetOnLoad, useFrameToolKeys } from './tools/useFrameTool.ts';
import { traceControl } from './traceControl.ts';
import { useTrace } from './traceStore.ts';

const QuickView = lazy(() => import('../quick/index.ts').then((module) => ({ default: module.QuickView })));

/** What the camera sees: the quick picture at once, the traced one over it, findings where they happen, the settings. */
export function FrameView() {
  const view = useCameraView();
  const { webgl2 } = useServices();
  const revision = useDocument((state) => state.revision);
  const boxRef = useRef<HTMLDivElement>(null);
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const size = useBoxSize(boxRef);
  const [meterPoint, setMeterPoint] = useState<MeterPoint | null>(null);
  const dragging = useSession((state) => state.dragging);
  const hasFilm = useTrace((state) => state.film !== null);
  const mode = useSession((state) => state.pictureMode);
  const showTraced = hasFilm && !dragging;
  const hasSmooth = useTrace((state) => state.smooth !== null && state.smooth.of === state.film);
  const smooth = useSession((state) => state.smooth);
  const showSmooth = showTraced && hasSmooth && smooth && mode === 'picture';

  const showFindings = useIsToolOpen('findings');
  useFrameToolKeys();
  useForgetOnLoad();
  usePhotoDrop();

  useEffect(() => {
    if (size.widthPx > 0) traceControl.setShownWidthPx(size.widthPx * Math.max(1, window.devicePixelRatio));
  }, [size.widthPx]);

  const placeOf = (event: { clientX: number; clientY: number; currentTarget: Element }): MeterPoint => {
    const box = event.currentTarget.getBoundingClientRect();
    return { u: (event.clientX - box.left) / box.width, v: (event.clientY - box.top) / box.height };
  };
  return (
    <div className="kg-frame">
      <div
        ref={boxRef}
        className="kg-picture"
        data-testid="picture"
        style={{ aspectRatio: `${view.tanHalfWidth} / ${view.tanHalfHeight}` }}
      >
        {/* biome-ignore lint/a11y/noStaticElementInteractions lint/a11y/useKeyWithClickEvents: what can be picked here can be picked on the desk and in the list by keyboard. */}
        <div
          className="kg-picture-light"
          onPointerMove={(event) => setMeterPoint(placeOf(event))}
          onPointerLeave={() => setMeterPoint(null)}
          onClick={(event) => {
            const { u, v } = placeOf(event);
            pressFrame(u, v, event);
          }}
        >
          <div className="kg-quick" data-hidden={showTraced}>
            {webgl2 && (
              <ViewBoundary title="The quick picture" resetKey={revision} silent>
                <Suspense fallback={null}>
                  <QuickView />
                </Suspense>
              </ViewBoundary>
            )}
          </div>
          <TracedCanvas ref={canvasRef} shown={showTraced} />
        </div>
        <SpillOverlay shown={showTraced} />
        <CompareOverlay />
        <ReferenceOverlay />
        <SharpOverlay {...size} />
        <CropOverlay {...size} />
        {showSmooth && <p className="kg-smoothed">smoothed</p>}
        {showFindings && <PinOverlay {...size} />}
        <PlacingHand boxRef={boxRef} />
        <NoLight />
        <Loupe point={meterPoint} canvasRef={canvasRef} {...size} traced={showTraced} />
      </div>
      <FrameToolRow />
      <ToolOptions />
      <MeterLine point={meterPoint} mode={mode} traced={showTraced} />
      <div className="kg-frame-foot">
        <ExposureBar />
        <FrameFoot canvasRef={canvasRef} />
      </div>
    </div>
  );
}

function useBoxSize(ref: React.RefObject<HTMLElement | null>): { readonly widthPx: number; readonly heightPx: number } {
  const [size, setSize] = useState({ widthPx: 0, heightPx: 0 });
  useEffect(() => {
    const element = ref.current;
    if (!element) return;
    const observer = new ResizeObserver(([entry]) => {
      const { width, height } = entry.contentRect;
      setSize({ widthPx: Math.round(width), heightPx: Math.round(height) });
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
}
