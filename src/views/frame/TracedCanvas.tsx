import { type Ref, useEffect, useImperativeHandle, useRef } from 'react';
import { documentStore, getFrameScene, getLayerGains, sessionStore } from '../session/index.ts';
import { createPicturePainter } from './paintPicture.ts';
import { pictureStore } from './pictureStore.ts';
import { traceStore, useTrace } from './traceStore.ts';

/**
 * The traced picture. It listens to the stores itself and paints at most once per animation frame, so that a fader
 * acts on it without a render of anything else.
 */
export function TracedCanvas({ shown, ref }: { readonly shown: boolean; readonly ref?: Ref<HTMLCanvasElement> }) {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const hasFilm = useTrace((state) => state.film !== null);
  useImperativeHandle(ref, () => canvasRef.current as HTMLCanvasElement, []);

  useEffect(() => {
    const canvas = canvasRef.current;
    if (!canvas) return;
    const paint = createPicturePainter(canvas);
    let scheduled = 0;
    const paintNow = () => {
      scheduled = 0;
      // The quick picture is up while something is held.
      if (sessionStore.getState().dragging) return;
      const { film, smooth } = traceStore.getState();
      if (film === null) {
        pictureStore.setState({ picture: null });
        return;
      }
      const session = sessionStore.getState();
      const shown =
        session.smooth && session.pictureMode === 'picture' && smooth?.of === film ? smooth.film : undefined;
      const picture = paint({
        film,
        ...(shown ? { shown } : {}),
        layerGains: getLayerGains(),
        camera: getFrameScene().camera,
        mode: session.pictureMode,
      });
      pictureStore.setState(({ revision }) => ({ picture, revision: revision + 1 }));
    };
    const schedule = () => {
      if (scheduled === 0) scheduled = requestAnimationFrame(paintNow);
    };
    const unsubscribe = [
      documentStore.subscribe(schedule),
      traceStore.subscribe((state, before) => {
        if (state.filmRevision !== before.filmRevision) schedule();
      }),
      sessionStore.subscribe((state, before) => {
        if (
          state.pictureMode !== before.pictureMode ||
          state.soloFixtureIds !== before.soloFixtureIds ||
          state.frameId !== before.frameId
        ) {
          schedule();
        }
      }),
    ];
    schedule();
    return () => {
      cancelAnimationFrame(scheduled);
      for (const off of unsubscribe) off();
    };
  }, []);

  return (
    <canvas
      ref={canvasRef}
      className="kg-traced"
      data-testid="traced"
      data-shown={shown && hasFilm}
      role="img"
      aria-label="Traced picture of the frame"
    />
  );
}
