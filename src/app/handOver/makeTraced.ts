import { assertNever, invariant } from '../../core/result.ts';
import { clientPage } from '../../deliverables/clientPage/clientPage.ts';
import {
  beforeAfterSheet,
  buildUpSheet,
  contactSheet,
  type FramePicture,
} from '../../deliverables/contactSheet/contactSheet.ts';
import { fileStem } from '../../deliverables/exchange/setupFile.ts';
import { type FrameSet, openFrameSet } from '../../deliverables/frameSet.ts';
import { cameraWords } from '../../deliverables/image/pictureFacts.ts';
import type { Sheet } from '../../deliverables/paper/marks.ts';
import { PAPER_SIZES } from '../../deliverables/paper/paperSize.ts';
import { pdfFromSheets } from '../../deliverables/pdf/pdfFromSheets.ts';
import { type EncodeJpeg, STILL_MIME, stillFile } from '../../deliverables/still/stillFile.ts';
import { createScenePictures, pictureHeightPx, type TraceScene } from '../../deliverables/traced/scenePictures.ts';
import { planTurnFilm, traceTurn } from '../../deliverables/video/turnFilm.ts';
import type { Frame, Setup } from '../../document/setup.ts';
import type { TracedProgress } from '../../views/session/index.ts';
import type { FilmFacts, FilmWriter } from './encodeTurn.ts';
import type { HandOverFile } from './handOverProtocol.ts';
import type { TracedRequest } from './tracedProtocol.ts';

/** What the host lends: threads to trace on and encoders for pictures and films. */
export interface TracedHost {
  /** Traces one job; `onPart` hears how much of it is done, 0 to 1. */
  trace(job: Parameters<TraceScene>[0], what: string, onPart: (part: number) => void): ReturnType<TraceScene>;
  readonly encodeJpeg: EncodeJpeg;
  createFilmWriter(widthPx: number, heightPx: number, facts: FilmFacts): Promise<FilmWriter>;
  onProgress(progress: TracedProgress): void;
}

const SEED = 1;

/** One file whose pictures are traced for it. Takes minutes; belongs off the page's thread. */
export async function makeTraced(request: TracedRequest, host: TracedHost): Promise<HandOverFile> {
  const { job, setup, date } = request;
  const frame = setup.frames.find(({ id }) => id === request.frameId) ?? setup.frames[0];
  const frameSet = openFrame(setup, frame);
  const ofSetup = fileStem(setup.title);
  const ofFrame = `${ofSetup}-${fileStem(frame.name)}`;
  const say = createTeller(host, tracesOf(request, frameSet));
  const pictures = createScenePictures(
    async (traceJob, what) => {
      const film = await host.trace(traceJob, what, (part) => say.within(part, what));
      say.traced(what);
      return film;
    },
    { widthPx: job.widthPx, samples: job.samples, seed: SEED },
  );
  const all = (of: Setup): FrameSet[] => of.frames.map((entry) => openFrame(of, entry));
  const pdf = async (name: string, subject: string, sheets: readonly Sheet[]): Promise<HandOverFile> => ({
    fileName: `${name}-${job.paper}.pdf`,
    mimeType: 'application/pdf',
    content: await pdfFromSheets(sheets, {
      title: `${setup.title}: ${subject}`,
      subject,
      madeOn: new Date(`${date}T00:00:00Z`),
    }),
  });
  const paper = PAPER_SIZES[job.paper];
  switch (job.kind) {
    case 'picture': {
      const { light, facts } = await pictures.lightOf(frameSet);
      const { encodeJpeg } = host;
      const content = await stillFile(light, frameSet.scene.camera, facts, { format: job.format, encodeJpeg });
      return { fileName: `${ofFrame}-${light.widthPx}.${job.format}`, mimeType: STILL_MIME[job.format], content };
    }
    case 'turn': {
      const options = {
        widthPx: job.widthPx,
        frames: job.turnFrames,
        markHighlight: job.markHighlight,
        markRunOut: job.markRunOut,
      };
      const film = planTurnFilm(frameSet, options);
      if (!film.ok) throw new Error(film.error);
      const writer = await host.createFilmWriter(job.widthPx, pictureHeightPx(job.widthPx, frameSet.scene.camera), {
        title: `${setup.title}: ${frame.name}`,
        words: `${cameraWords(frameSet.scene.camera)}. One round at ${Number(film.value.plan.loopRpm.toFixed(4))} rpm, grain smoothed.`,
        perS: film.value.playedPerS,
      });
      await traceTurn(frameSet, film.value, pictures, options, ({ index, image }) => writer.add(index, image));
      return {
        fileName: `${ofFrame}-turn.${writer.ending}`,
        mimeType: writer.mimeType,
        content: await writer.finish(),
      };
    }
    case 'contactSheet': {
      const made = await inTurn(all(setup), (entry) => pictures.ofFrame(entry));
      return pdf(`${ofSetup}-frames`, 'frames', contactSheet(made, paper));
    }
    case 'lightByLight':
      return pdf(
        `${ofFrame}-light-by-light`,
        'light by light',
        buildUpSheet(frameSet, await pictures.buildUpOf(frameSet), paper),
      );
    case 'beforeAfter': {
      const earlier = all(request.before);
      const pairs: { before: FramePicture; after: FramePicture }[] = [];
      for (const after of all(setup)) {
        const before = earlier.find((entry) => entry.frame.id === after.frame.id);
        if (before) pairs.push({ before: await pictures.ofFrame(before), after: await pictures.ofFrame(after) });
      }
      if (pairs.length === 0) throw new Error('no frame is left of the setup as it was opened');
      return pdf(`${ofSetup}-before-after`, 'before and after', beforeAfterSheet(setup.title, pairs, paper));
    }
    case 'clientPage': {
      const frames = await inTurn(all(setup), async (entry) => ({
        ...(await pictures.ofFrame(entry)),
        name: entry.frame.name,
        notes: entry.frame.kind === 'turn' ? ['Filmed through one round of the turntable.'] : [],
        alternatives: [],
      }));
      const face = request.fontWoff2 ? { fontWoff2: request.fontWoff2 } : {};
      return {
        fileName: `${ofSetup}-client.html`,
        mimeType: 'text/html',
        content: clientPage({ setup, date, frames, showNotes: job.showNotes, ...face }),
      };
    }
    default:
      return assertNever(job.kind);
  }
}

/** How many traces a job takes, so that progress can say how far it is. */
function tracesOf({ job, setup }: TracedRequest, frameSet: FrameSet): number {
  switch (job.kind) {
    case 'picture':
    case 'lightByLight':
      return 1;
    case 'contactSheet':
    case 'clientPage':
      return setup.frames.length;
    case 'beforeAfter':
      return 2 * setup.frames.length;
    case 'turn': {
      const film = planTurnFilm(frameSet, { widthPx: job.widthPx, frames: job.turnFrames });
      return film.ok ? film.value.plan.frames.reduce((sum, { stepsDeg }) => sum + stepsDeg.length, 0) : 1;
    }
    default:
      return assertNever(job.kind);
  }
}

/** Says how far the work is: whole traces, and the part of the one under way. */
export function createTeller({ onProgress }: Pick<TracedHost, 'onProgress'>, traces: number) {
  let done = 0;
  const say = (part: number, words: string): void => onProgress({ share: Math.min(1, (done + part) / traces), words });
  return {
    within: say,
    traced(what: string): void {
      done++;
      say(0, what);
    },
  };
}

async function inTurn<T, R>(items: readonly T[], make: (item: T) => Promise<R>): Promise<R[]> {
  const made: R[] = [];
  for (const item of items) made.push(await make(item));
  return made;
}

function openFrame(setup: Setup, frame: Frame): FrameSet {
  const opened = openFrameSet(setup, frame.id);
  invariant(opened.ok, () => 'the open setup is valid, so its frames resolve');
  return opened.value;
}
