import { zipSync } from 'fflate';
import {
  BufferTarget,
  getFirstEncodableVideoCodec,
  Mp4OutputFormat,
  Output,
  QUALITY_HIGH,
  VideoSample,
  VideoSampleSource,
  WebMOutputFormat,
} from 'mediabunny';
import type { RgbImage } from '../../deliverables/image/linearImage.ts';
import { writePng } from '../../deliverables/image/png.ts';

/** Takes the pictures of a film one after another and makes a file of them. */
export interface FilmWriter {
  readonly ending: 'mp4' | 'webm' | 'zip';
  readonly mimeType: string;
  add(index: number, image: RgbImage<Uint8Array>): Promise<void>;
  finish(): Promise<Uint8Array>;
}

export interface FilmFacts {
  readonly title: string;
  readonly words: string;
  readonly perS: number;
}

/** Codecs by how many players know them; MP4 holds the first, WebM the others. */
const CODECS = ['avc', 'vp9', 'vp8'] as const;
/** A film that loops is looked through picture by picture: one in so many seconds can be jumped to. */
const KEY_EVERY_S = 1;

/**
 * A writer of what this browser can encode: MP4 (H.264), else WebM (VP9, VP8), by WebCodecs and the muxer mediabunny; where there
 * is no encoder at all, an archive of numbered PNG files.
 */
export async function createFilmWriter(widthPx: number, heightPx: number, facts: FilmFacts): Promise<FilmWriter> {
  // Encoders halve the resolution of colour, so sides are even; an odd line is left off.
  const size = { width: widthPx - (widthPx % 2), height: heightPx - (heightPx % 2) };
  const codec =
    typeof VideoEncoder === 'undefined'
      ? null
      : await getFirstEncodableVideoCodec([...CODECS], { ...size, quality: QUALITY_HIGH });
  return codec === null ? pictureArchive() : videoWriter(codec, size, facts);
}

async function videoWriter(
  codec: 'avc' | 'vp9' | 'vp8' | string,
  size: { readonly width: number; readonly height: number },
  facts: FilmFacts,
): Promise<FilmWriter> {
  const known = CODECS.find((name) => name === codec) ?? 'vp8';
  const isMp4 = known === 'avc';
  const target = new BufferTarget();
  const output = new Output({ format: isMp4 ? new Mp4OutputFormat() : new WebMOutputFormat(), target });
  const source = new VideoSampleSource({ codec: known, quality: QUALITY_HIGH, keyFrameInterval: KEY_EVERY_S });
  output.addVideoTrack(source, { name: facts.title });
  output.setMetadataTags({ title: facts.title, comment: facts.words });
  await output.start();
  return {
    ending: isMp4 ? 'mp4' : 'webm',
    mimeType: isMp4 ? 'video/mp4' : 'video/webm',
    async add(index, image) {
      const sample = new VideoSample(rgbaOf(image, size.width, size.height), {
        format: 'RGBA',
        codedWidth: size.width,
        codedHeight: size.height,
        timestamp: index / facts.perS,
        duration: 1 / facts.perS,
      });
      try {
        await source.add(sample);
      } finally {
        sample.close();
      }
    },
    async finish() {
      await output.finalize();
      if (target.buffer === null) throw new Error('the film came out empty');
      return new Uint8Array(target.buffer);
    },
  };
}

function pictureArchive(): FilmWriter {
  const files: Record<string, Uint8Array> = {};
  return {
    ending: 'zip',
    mimeType: 'application/zip',
    async add(index, image) {
      files[`${String(index + 1).padStart(4, '0')}.png`] = writePng(image);
    },
    // PNG is packed already.
    finish: async () => zipSync(files, { level: 0 }),
  };
}

function rgbaOf({ widthPx, rgb }: RgbImage<Uint8Array>, width: number, height: number): Uint8Array<ArrayBuffer> {
  const rgba = new Uint8Array(width * height * 4).fill(255);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [from, to] = [3 * (y * widthPx + x), 4 * (y * width + x)];
      for (let c = 0; c < 3; c++) rgba[to + c] = rgb[from + c];
    }
  }
  return rgba;
}
