import type { Camera } from '../../camera/records.ts';
import { formatShutter } from '../../camera/stops.ts';
import type { Film } from '../../transport/contracts.ts';
import { relativeError } from '../../transport/cpu/film.ts';
import { frameGrain, type TracedFrame } from './tracedFrame.ts';

/** What a picture file says of itself: of what, by which camera, and how far it can be trusted. */
export interface PictureFacts {
  readonly setupTitle: string;
  readonly frameName: string;
  readonly camera: Camera;
  /** Mean over the picture. */
  readonly samplesPerPixel: number;
  /** Estimated error of a pixel as traced over the mean of the frame; infinite when not known. */
  readonly relativeError: number;
  /** Grain taken out afterwards: to look at and not to measure. */
  readonly smoothed: boolean;
  readonly programVersion?: string;
}

export const SOFTWARE = 'Keyglass';

export const factsOfTracedFrame = (frame: TracedFrame, smoothed: boolean): PictureFacts => ({
  setupTitle: frame.stamp.setupTitle,
  frameName: frame.stamp.frameName,
  camera: frame.stamp.camera,
  samplesPerPixel: meanOf(frame.samples),
  relativeError: frameGrain(frame),
  smoothed,
  programVersion: frame.stamp.programVersion,
});

/** Samples and error as traced; read them from the film before it is smoothed. */
export const traceFactsOf = (film: Film): Pick<PictureFacts, 'samplesPerPixel' | 'relativeError'> => ({
  samplesPerPixel: meanOf(film.samples),
  relativeError: relativeError(film),
});

/** '85 mm, f/11, 1/50 s, ISO 200, 5600 K, focus 1409 mm'. */
export const cameraWords = (camera: Camera): string =>
  `${Number(camera.focalLengthMm.toFixed(1))} mm, f/${Number(camera.apertureFNumber.toFixed(1))}, ` +
  `${formatShutter(camera.shutterS)}, ISO ${camera.iso}, ${camera.whiteBalanceK} K, ` +
  `focus ${Math.round(camera.focusDistanceM * 1000)} mm`;

/** '96 samples a pixel, estimated error 2.1 % as traced, grain smoothed'. */
export function traceWords({ samplesPerPixel, relativeError: error, smoothed }: PictureFacts): string {
  const known = Number.isFinite(error) ? `estimated error ${(100 * error).toFixed(1)} % as traced` : 'error not known';
  return `${Number(samplesPerPixel.toFixed(1))} samples a pixel, ${known}${smoothed ? ', grain smoothed' : ''}`;
}

/** The facts as keywords and texts, for formats that carry text. Keywords of ISO/IEC 15948, 11.3.4.2, where it has one. */
export const factTexts = (facts: PictureFacts): Readonly<Record<string, string>> => ({
  Title: `${facts.setupTitle}: ${facts.frameName}`,
  Software: softwareWords(facts),
  Description: 'Traced from the planned set',
  Camera: cameraWords(facts.camera),
  Trace: traceWords(facts),
});

export const softwareWords = ({ programVersion }: PictureFacts): string =>
  programVersion === undefined ? SOFTWARE : `${SOFTWARE} ${programVersion}`;

function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return values.length === 0 ? 0 : sum / values.length;
}
