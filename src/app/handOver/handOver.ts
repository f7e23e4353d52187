import faceUrl from '@fontsource-variable/spline-sans/files/spline-sans-latin-wght-normal.woff2?url';
import { traceStore } from '../../views/frame/index.ts';
import {
  clearNotice,
  documentStore,
  getFrameScene,
  getLayerGains,
  type HandOverKind,
  sessionStore,
  showNotice,
} from '../../views/session/index.ts';
import { downloadFile } from '../storage/downloadFile.ts';
import type { HandOverFile, HandOverReply, HandOverRequest, TracedPicture } from './handOverProtocol.ts';

/** Makes one file off the page's thread and downloads it; says in the message strip how it goes. */
export async function handOver(kind: HandOverKind, words: string): Promise<void> {
  const { setup } = documentStore.getState();
  const { frameId } = sessionStore.getState();
  const { samples, targetSamples } = traceStore.getState();
  const picture = kind === 'client' ? readPicture() : undefined;
  if (kind === 'client' && !picture) {
    showNotice({
      tone: 'trouble',
      text: 'There is no traced picture to show a client yet.',
      detail: 'Wait until the frame is traced, then ask again.',
    });
    return;
  }
  showNotice({ tone: 'busy', text: `Making ${words}.` });
  try {
    const fontWoff2 = kind === 'client' ? await readFace() : undefined;
    const file = await askWorker({
      kind,
      setup,
      frameId,
      date: dayOf(new Date()),
      ...(picture ? { picture } : {}),
      ...(fontWoff2 ? { fontWoff2 } : {}),
    });
    clearNotice();
    downloadFile(file.fileName, blobOf(file));
    const grain = kind === 'client' ? wordsOfGrain(samples, targetSamples) : null;
    showNotice({ tone: 'done', text: `Saved ${file.fileName}.`, ...(grain ? { detail: grain } : {}) });
  } catch (error) {
    showNotice({
      tone: 'trouble',
      text: `That could not be made: ${error instanceof Error ? error.message : String(error)}`,
      detail: 'The open setup is untouched.',
    });
  }
}

/** Said of a picture that is still coming up; null for a finished one. */
const wordsOfGrain = (samples: number, targetSamples: number): string | null =>
  samples < targetSamples
    ? `Its picture holds ${samples} of ${targetSamples} samples; hand it over again once it is traced.`
    : null;

/** The film on screen under the present faders, as long as it holds a sample. */
function readPicture(): TracedPicture | undefined {
  const { film, samples, smooth } = traceStore.getState();
  if (film === null || samples < 1) return undefined;
  return {
    film,
    ...(smooth?.of === film ? { smooth: smooth.film } : {}),
    layerGains: getLayerGains(),
    camera: getFrameScene().camera,
  };
}

function askWorker(request: HandOverRequest): Promise<HandOverFile> {
  const worker = new Worker(new URL('./handOverWorker.ts', import.meta.url), { type: 'module' });
  const answer = new Promise<HandOverFile>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<HandOverReply>) => {
      if (data.type === 'file') resolve(data.file);
      else reject(new Error(data.message));
    };
    worker.onerror = (event) => reject(new Error(event.message || 'the worker could not start'));
  });
  worker.postMessage(request);
  return answer.finally(() => worker.terminate());
}

/** Latin letters of the project's face, to go inside the page; without them it takes the system's own. */
export async function readFace(): Promise<Uint8Array | undefined> {
  try {
    const answer = await fetch(faceUrl);
    return answer.ok ? new Uint8Array(await answer.arrayBuffer()) : undefined;
  } catch {
    return undefined;
  }
}

export const blobOf = ({ content, mimeType }: HandOverFile): Blob =>
  new Blob([typeof content === 'string' ? content : Uint8Array.from(content)], { type: mimeType });

/** The day where the page is open, YYYY-MM-DD. */
export const dayOf = (now: Date): string =>
  [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
