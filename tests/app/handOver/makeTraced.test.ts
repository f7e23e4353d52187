import { unzipSync } from 'fflate';
import { PDFDocument } from 'pdf-lib';
import { describe, expect, it } from 'vitest';
import { createFilmWriter } from '../../../src/app/handOver/encodeTurn.ts';
import { makeTraced, type TracedHost } from '../../../src/app/handOver/makeTraced.ts';
import type { RgbImage } from '../../../src/deliverables/image/linearImage.ts';
import { FEATURE_WORDS, type TraceJob } from '../../../src/transport/contracts.ts';
import type { TracedJob, TracedProgress } from '../../../src/views/session/index.ts';
import { studioSetup } from '../../deliverables/helpers/studioSetup.ts';

const JOB: TracedJob = {
  kind: 'picture',
  widthPx: 16,
  samples: 2,
  format: 'png',
  paper: 'a4',
  turnFrames: 3,
  markHighlight: true,
  markRunOut: true,
  showNotes: false,
};
const setup = studioSetup();

/** Even light in place of the tracer, and what it was asked for. */
function fakeHost() {
  const jobs: TraceJob[] = [];
  const progress: TracedProgress[] = [];
  const host: TracedHost = {
    async trace(job, _what, onPart) {
      jobs.push(job);
      onPart(0.5);
      const pixels = job.widthPx * job.heightPx;
      return {
        widthPx: job.widthPx,
        heightPx: job.heightPx,
        layerIds: job.world.layerIds,
        layers: job.world.layerIds.map(() => new Float32Array(pixels * 3).fill(20)),
        samples: new Uint32Array(pixels).fill(2),
        features: new Float32Array(pixels * FEATURE_WORDS).fill(1),
        luminanceSum: new Float32Array(pixels).fill(40),
        luminanceSquareSum: new Float32Array(pixels).fill(800),
      };
    },
    encodeJpeg: ({ widthPx, heightPx }: RgbImage<Uint8Array>) =>
      Uint8Array.of(0xff, 0xd8, 0xff, 0xd9, widthPx, heightPx),
    createFilmWriter,
    onProgress: (said) => progress.push(said),
  };
  return { host, jobs, progress };
}
const make = async (patch: Partial<TracedJob>, before = setup) => {
  const { host, jobs, progress } = fakeHost();
  const file = await makeTraced(
    { job: { ...JOB, ...patch }, setup, frameId: 'frame:turn', before, date: '2026-04-18' },
    host,
  );
  return { file, jobs, progress };
};

describe('files that are traced for', () => {
  it('are named after setup, frame and size, in the format that was asked for', async () => {
    const stem = 'iced-tea-on-paper-rotating-close-up';
    expect((await make({})).file).toMatchObject({ fileName: `${stem}-16.png`, mimeType: 'image/png' });
    expect((await make({ format: 'tif' })).file).toMatchObject({ fileName: `${stem}-16.tif`, mimeType: 'image/tiff' });
    const jpeg = (await make({ format: 'jpg' })).file;
    expect(jpeg).toMatchObject({ fileName: `${stem}-16.jpg`, mimeType: 'image/jpeg' });
    // The Exif block is let in behind the start of the stream.
    expect(Buffer.from(jpeg.content).subarray(2, 10).toString('latin1')).toContain('Exif');
  });

  it('tell how far they are, never backward, and end at all of it', async () => {
    const { progress, jobs } = await make({ kind: 'contactSheet' });
    expect(jobs).toHaveLength(2);
    const shares = progress.map(({ share }) => share);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares[0]).toBe(0.25);
    expect(shares[shares.length - 1]).toBe(1);
  });

  it('trace the light by light of a frame once, and before and after once for each side', async () => {
    const steps = await make({ kind: 'lightByLight' });
    expect(steps.jobs).toHaveLength(1);
    expect((await PDFDocument.load(steps.file.content)).getPageCount()).toBeGreaterThan(0);
    const pairs = await make({ kind: 'beforeAfter' }, structuredClone(setup));
    expect(pairs.jobs).toHaveLength(4);
    expect(pairs.file.fileName).toBe('iced-tea-on-paper-before-after-a4.pdf');
  });

  it('put every frame on the page of the client, and the notes of the brief only when asked', async () => {
    const page = (await make({ kind: 'clientPage' })).file;
    expect(String(page.content).match(/<img /g)).toHaveLength(2);
    expect(String(page.content)).not.toContain(setup.brief.notes);
    expect(String((await make({ kind: 'clientPage', showNotes: true })).file.content)).toContain(setup.brief.notes);
  });

  it('become an archive of numbered pictures where nothing encodes video, as in Node', async () => {
    const { file, jobs } = await make({ kind: 'turn' });
    expect(file.fileName).toBe('iced-tea-on-paper-rotating-close-up-turn.zip');
    expect(Object.keys(unzipSync(Uint8Array.from(Buffer.from(file.content))))).toEqual([
      '0001.png',
      '0002.png',
      '0003.png',
    ]);
    // The studio turns at 6 rpm, 1/48 s: at 16 pixels across nothing blurs, one moment each.
    expect(jobs).toHaveLength(3);
  });

  it('say what to mend where there is no turntable', async () => {
    const { turntable: _, ...still } = structuredClone(setup);
    const { host } = fakeHost();
    const asked = makeTraced(
      { job: { ...JOB, kind: 'turn' }, setup: still, frameId: 'frame:turn', before: still, date: '2026-04-18' },
      host,
    );
    await expect(asked).rejects.toThrow('no turntable');
  });
});
