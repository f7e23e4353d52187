import { EbmlStreamDecoder, EbmlTagId } from 'ebml-stream';
import { createFile, MP4BoxBuffer } from 'mp4box';

export interface ReadFilm {
  readonly frames: number;
  readonly durationS: number;
  readonly widthPx: number;
}

/** Reads the container of a film by itself: ISO BMFF with GPAC's MP4Box in JavaScript, WebM by the tags of EBML. */
export const readFilm = (bytes: Uint8Array, container: 'mp4' | 'webm'): Promise<ReadFilm> =>
  container === 'mp4' ? readMp4(bytes) : readWebm(bytes);

function readMp4(bytes: Uint8Array): Promise<ReadFilm> {
  return new Promise((resolve, reject) => {
    const file = createFile();
    file.onError = (error: unknown) => reject(new Error(String(error)));
    file.onReady = (info) => {
      const [track] = info.videoTracks;
      resolve({
        frames: track.nb_samples,
        durationS: track.duration / track.timescale,
        widthPx: track.video?.width ?? track.track_width,
      });
    };
    file.appendBuffer(MP4BoxBuffer.fromArrayBuffer(bytes.slice().buffer, 0));
    file.flush();
  });
}

function readWebm(bytes: Uint8Array): Promise<ReadFilm> {
  return new Promise((resolve, reject) => {
    const decoder = new EbmlStreamDecoder();
    let [frames, duration, scaleNs, widthPx] = [0, 0, 1e6, 0];
    decoder.on('data', (tag: { id: number; data?: unknown }) => {
      const value = Number(tag.data);
      if (tag.id === EbmlTagId.SimpleBlock || tag.id === EbmlTagId.Block) frames++;
      else if (tag.id === EbmlTagId.Duration) duration = value;
      else if (tag.id === EbmlTagId.TimecodeScale) scaleNs = value;
      else if (tag.id === EbmlTagId.PixelWidth) widthPx = value;
    });
    decoder.on('finish', () => resolve({ frames, durationS: (duration * scaleNs) / 1e9, widthPx }));
    decoder.on('error', reject);
    decoder.end(Buffer.from(bytes));
  });
}
