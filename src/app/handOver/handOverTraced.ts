import {
  documentStore,
  sessionStore,
  showNotice,
  type TracedJob,
  type TracedProgress,
} from '../../views/session/index.ts';
import { downloadFile } from '../storage/downloadFile.ts';
import { blobOf, dayOf, readFace } from './handOver.ts';
import type { HandOverFile } from './handOverProtocol.ts';
import { setupAsOpened } from './setupAsOpened.ts';
import type { TracedReply, TracedRequest } from './tracedProtocol.ts';

/** Traces off the page's thread, makes a file of it and downloads it. Nothing is left of it when `stop` says so. */
export async function handOverTraced(
  job: TracedJob,
  onProgress: (progress: TracedProgress) => void,
  stop: AbortSignal,
): Promise<void> {
  const { setup } = documentStore.getState();
  try {
    const fontWoff2 = job.kind === 'clientPage' ? await readFace() : undefined;
    const file = await askWorker(
      {
        job,
        setup,
        frameId: sessionStore.getState().frameId,
        before: setupAsOpened(),
        date: dayOf(new Date()),
        ...(fontWoff2 ? { fontWoff2 } : {}),
      },
      onProgress,
      stop,
    );
    if (file === null) return;
    downloadFile(file.fileName, blobOf(file));
    const detail = file.fileName.endsWith('.zip')
      ? 'This browser encodes no video, so it is an archive of pictures.'
      : null;
    showNotice({ tone: 'done', text: `Saved ${file.fileName}.`, ...(detail ? { detail } : {}) });
  } catch (error) {
    showNotice({
      tone: 'trouble',
      text: `That could not be made: ${error instanceof Error ? error.message : String(error)}`,
      detail: 'The open setup is untouched.',
    });
  }
}

/** Null when it was stopped. */
function askWorker(
  request: TracedRequest,
  onProgress: (progress: TracedProgress) => void,
  stop: AbortSignal,
): Promise<HandOverFile | null> {
  // It may have been stopped while this part of the program was fetched; a signal tells of that only once.
  if (stop.aborted) return Promise.resolve(null);
  const worker = new Worker(new URL('./tracedWorker.ts', import.meta.url), { type: 'module' });
  const answer = new Promise<HandOverFile | null>((resolve, reject) => {
    stop.addEventListener('abort', () => resolve(null), { once: true });
    worker.onmessage = ({ data }: MessageEvent<TracedReply>) => {
      if (data.type === 'progress') onProgress(data.progress);
      else if (data.type === 'file') resolve(data.file);
      else reject(new Error(data.message));
    };
    worker.onerror = (event) => reject(new Error(event.message || 'the worker could not start'));
  });
  worker.postMessage(request);
  return answer.finally(() => worker.terminate());
}
