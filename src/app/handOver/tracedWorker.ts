/// <reference lib="webworker" />
import type { RgbImage } from '../../deliverables/image/linearImage.ts';
import { JPEG_QUALITY } from '../../deliverables/still/stillFile.ts';
import type { Film } from '../../transport/contracts.ts';
import { createBrowserTracePool } from '../tracePool.ts';
import { createFilmWriter } from './encodeTurn.ts';
import { makeTraced, type TracedHost } from './makeTraced.ts';
import type { TracedReply, TracedRequest } from './tracedProtocol.ts';

/*
 * Lives for one file. It traces on workers of its own, which end with it: the page stops the work by ending this worker.
 */
const reply = (message: TracedReply): void => self.postMessage(message);

function createTracer(): TracedHost['trace'] {
  const pool = createBrowserTracePool();
  let last: Promise<unknown> = Promise.resolve();
  const run: TracedHost['trace'] = (job, _what, onPart) =>
    new Promise<Film>((resolve, reject) => {
      pool.start(job, {
        onProgress: (_film, { samplesDone, samplesPerPixel }) => onPart(samplesDone / samplesPerPixel),
        onDone: resolve,
        onError: reject,
      });
    });
  // The pool drops a job when another is started.
  return (job, what, onPart) => {
    const next = last.then(() => run(job, what, onPart));
    last = next.catch(() => undefined);
    return next;
  };
}

async function encodeJpeg({ widthPx, heightPx, rgb }: RgbImage<Uint8Array>): Promise<Uint8Array> {
  const canvas = new OffscreenCanvas(widthPx, heightPx);
  const context = canvas.getContext('2d', { alpha: false });
  if (!context) throw new Error('this browser gives a worker no canvas for JPEG: choose PNG');
  const image = context.createImageData(widthPx, heightPx);
  for (let p = 0; p < widthPx * heightPx; p++) {
    for (let c = 0; c < 3; c++) image.data[4 * p + c] = rgb[3 * p + c];
    image.data[4 * p + 3] = 255;
  }
  context.putImageData(image, 0, 0);
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: JPEG_QUALITY / 100 });
  return new Uint8Array(await blob.arrayBuffer());
}

self.addEventListener('message', ({ data }: MessageEvent<TracedRequest>) => {
  makeTraced(data, {
    trace: createTracer(),
    encodeJpeg,
    createFilmWriter,
    onProgress: (progress) => reply({ type: 'progress', progress }),
  }).then(
    (file) => reply({ type: 'file', file }),
    (error: unknown) => reply({ type: 'failure', message: error instanceof Error ? error.message : String(error) }),
  );
});
