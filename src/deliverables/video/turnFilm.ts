import { fail, ok, type Result } from '../../core/result.ts';
import { checkSettingsOf } from '../../document/checkSettings.ts';
import { buildSet } from '../../scene/buildSet.ts';
import type { FrameSet } from '../frameSet.ts';
import type { RgbImage } from '../image/linearImage.ts';
import type { Table } from '../sheets/table.ts';
import { developedRgb8 } from '../still/developedPixels.ts';
import type { ScenePictures } from '../traced/scenePictures.ts';
import { turnFigures } from './turnFigures.ts';
import { drawRunOut, drawSweep, findHighlight, type PlaceInFrame, runOutLines } from './turnMarks.ts';
import { planTurn, type TurnPlan } from './turnPlan.ts';

export interface TurnFilmOptions {
  readonly widthPx: number;
  /** Pictures of one round; 'all' for every frame of the film. */
  readonly frames: number | 'all';
  /** Moments of the exposure that are traced for each picture; as many as the blur asks for when left out. */
  readonly blurSteps?: number;
  readonly markHighlight?: boolean;
  readonly markRunOut?: boolean;
}

export interface TurnFilm {
  readonly plan: TurnPlan;
  /** Frames per second of the film: slower than the camera's own where only a part of the frames is made. */
  readonly playedPerS: number;
}

/** One picture of the turn, ready for a file or an encoder. */
export interface TurnPicture {
  readonly index: number;
  readonly image: RgbImage<Uint8Array>;
  readonly highlight: PlaceInFrame | null;
}

/** Moments closer than this on the picture show no steps. Common practice, no source. */
const STEP_PX = 0.5;
const MOST_STEPS = 32;

/** Moments of the exposure so that nothing moves more than half a pixel from one to the next; 1 where nothing blurs. */
export function blurStepsFor(frameSet: FrameSet, widthPx: number): number {
  const figures = turnFigures(frameSet.scene, widthPx);
  return figures ? Math.min(MOST_STEPS, Math.max(1, Math.ceil(figures.blurPx / STEP_PX))) : 1;
}

/** What a turn of this frame takes; says what to mend where nothing turns. */
export function planTurnFilm(frameSet: FrameSet, options: TurnFilmOptions): Result<TurnFilm, string> {
  const { setup, frame, scene } = frameSet;
  if (!scene.turntable) return fail('There is no turntable in this frame: add one, or choose a frame that turns.');
  const fps = checkSettingsOf(setup, frame).capture.framesPerS;
  const plan = planTurn({
    rpm: scene.turntable.rpm,
    fps,
    shutterS: scene.camera.shutterS,
    startDeg: scene.turntableAngleDeg,
    blurSteps: options.blurSteps ?? blurStepsFor(frameSet, options.widthPx),
    ...(options.frames === 'all' ? {} : { frameCount: options.frames }),
  });
  if (!plan.ok) return plan;
  return ok({ plan: plan.value, playedPerS: plan.value.frames.length / plan.value.durationS });
}

/**
 * Traces the pictures of a turn one after another: each the mean of its moments, developed as the camera shows it, with marks
 * where they are asked for. `onPicture` takes each as it is there; the loop ends when it throws.
 */
export async function traceTurn(
  frameSet: FrameSet,
  { plan }: TurnFilm,
  pictures: ScenePictures,
  options: TurnFilmOptions,
  onPicture: (picture: TurnPicture) => void | Promise<void>,
): Promise<void> {
  const { scene, view, frame } = frameSet;
  const trail: PlaceInFrame[] = [];
  for (const { index, angleDeg, stepsDeg } of plan.frames) {
    const moments = stepsDeg.map((deg) => ({ ...scene, turntableAngleDeg: deg }));
    const { light } = await pictures.ofMoments(moments, `${frame.name}, ${index + 1} of ${plan.frames.length}`);
    const hero = buildSet(moments[0]).boundsByRecord.get(scene.subject.pieceId);
    const highlight = hero ? findHighlight(light, view, hero) : null;
    if (highlight) trail.push(highlight);
    const image = developedRgb8(light, scene.camera);
    const swing = options.markRunOut && hero ? runOutLines(scene, view, hero, angleDeg) : null;
    if (swing) drawRunOut(image, swing);
    if (options.markHighlight) drawSweep(image, trail);
    await onPicture({ index, image, highlight });
  }
}

/** Angle, time and highlight of every picture. */
export const angleTable = (
  { frames, loopRpm, blurDeg }: TurnPlan,
  highlights: readonly (PlaceInFrame | null)[] = [],
): Table => ({
  id: 'angles',
  title: 'Angles of the turn',
  columns: [
    { title: 'Picture', share: 1 },
    { title: 'Time', unit: 's', digits: 4, share: 1 },
    { title: 'Shutter opens at', unit: '\u00b0', digits: 4, share: 1 },
    { title: 'Turned while open', unit: '\u00b0', digits: 4, share: 1 },
    { title: 'Speed', unit: 'rpm', digits: 4, share: 1 },
    { title: 'Highlight, right', digits: 4, share: 1 },
    { title: 'Highlight, down', digits: 4, share: 1 },
  ],
  rows: frames.map(({ index, timeS, angleDeg }) => [
    index + 1,
    timeS,
    angleDeg,
    blurDeg,
    loopRpm,
    highlights[index]?.u ?? null,
    highlights[index]?.v ?? null,
  ]),
  notes: ['Places count from the upper left corner of the picture, 0 to 1.'],
});
