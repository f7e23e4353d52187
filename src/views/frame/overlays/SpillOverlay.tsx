import { useEffect, useRef } from 'react';
import { composeFilm } from '../../../transport/cpu/film.ts';
import { getFrameScene, getLayerGains, sessionStore } from '../../session/index.ts';
import { developImage } from '../developImage.ts';
import { pictureStore } from '../pictureStore.ts';
import { frameToolsStore, useIsToolOpen } from '../tools/frameToolsStore.ts';
import { spillFixture } from '../tools/spillFixture.ts';
import { traceStore } from '../traceStore.ts';
import { lightShares, paintLightShare } from './lightShare.ts';

/** The picture in grey, in colour where the light is that of one fixture: read from the layers of the film. */
export function SpillOverlay({ shown }: { readonly shown: boolean }) {
  const open = useIsToolOpen('spill');
  if (!open || !shown) return null;
  return <SpillCanvas />;
}

function SpillCanvas() {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    let scheduled = 0;
    const paint = () => {
      scheduled = 0;
      const canvas = canvasRef.current;
      const context = canvas?.getContext('2d', { alpha: false });
      const { film, smooth } = traceStore.getState();
      if (!canvas || !context || film === null) return;
      const scene = getFrameScene();
      const fixture = spillFixture(scene.fixtures, frameToolsStore.getState().spillFixtureId);
      const layer = film.layerIds.indexOf(fixture?.id ?? '');
      const { widthPx, heightPx } = film;
      if (canvas.width !== widthPx || canvas.height !== heightPx) {
        canvas.width = widthPx;
        canvas.height = heightPx;
      }
      const source = sessionStore.getState().smooth && smooth?.of === film ? smooth.film : film;
      const gains = getLayerGains();
      const image = context.createImageData(widthPx, heightPx);
      developImage(composeFilm(source, gains), scene.camera, 'picture', image);
      paintLightShare(lightShares(source, gains, layer), image.data, image);
      context.putImageData(image, 0, 0);
    };
    const schedule = () => {
      if (scheduled === 0) scheduled = requestAnimationFrame(paint);
    };
    const unsubscribe = [
      // Moves with every change of film, gains and camera.
      pictureStore.subscribe(schedule),
      frameToolsStore.subscribe((state, before) => {
        if (state.spillFixtureId !== before.spillFixtureId) schedule();
      }),
    ];
    schedule();
    return () => {
      cancelAnimationFrame(scheduled);
      for (const off of unsubscribe) off();
    };
  }, []);
  return <canvas ref={canvasRef} className="kg-overlay" data-testid="spill" />;
}
