import { fail, ok, type Result } from '../../core/result.ts';
import { degPerFrame } from './turnFigures.ts';

export interface TurnPlanInput {
  readonly rpm: number;
  readonly fps: number;
  readonly shutterS: number;
  /** Angle of the first frame, degrees. */
  readonly startDeg: number;
  /** Pictures that are averaged into one frame for its motion blur; 1 makes each frame sharp. */
  readonly blurSteps: number;
  /** Turns in all; 1 loops. */
  readonly turns?: number;
  /** Only this many frames, evenly over the turn: a proof instead of a film. */
  readonly frameCount?: number;
}

export interface TurnPlan {
  readonly frames: readonly TurnFrame[];
  /** The speed at which the film closes on itself: whole frames to a turn. */
  readonly loopRpm: number;
  readonly degPerFrame: number;
  /** Angle that the table turns while the shutter is open. */
  readonly blurDeg: number;
  readonly durationS: number;
}

export interface TurnFrame {
  readonly index: number;
  readonly timeS: number;
  /** When the shutter opens; counter-clockwise from above, 0 up to 360. */
  readonly angleDeg: number;
  /** Middles of equal parts of the exposure, degrees, not wrapped. */
  readonly stepsDeg: readonly number[];
}

/** Most frames of one plan. */
const MOST_FRAMES = 20_000;

/**
 * Angles of every frame of a turntable film. One turn is rounded to a whole number of frames, so that the film loops
 * without a jump; `loopRpm` is the speed at which that holds exactly.
 */
export function planTurn(input: TurnPlanInput): Result<TurnPlan, string> {
  const { rpm, fps, shutterS, startDeg, blurSteps, turns = 1 } = input;
  if (!(rpm > 0)) return fail('The turntable does not turn: give turntable.rpm a value over 0.');
  if (!(fps > 0)) return fail('Frames per second must be over 0.');
  if (!(turns > 0)) return fail('The number of turns must be over 0.');
  if (!(blurSteps >= 1)) return fail('Blur steps: 1 or more.');
  const framesPerTurn = Math.max(1, Math.round((60 * fps) / rpm));
  const filmFrames = Math.max(1, Math.round(framesPerTurn * turns));
  const count = input.frameCount ?? filmFrames;
  if (!(count >= 1) || count > MOST_FRAMES) {
    return fail(`That makes ${count} frames; ${MOST_FRAMES} at most: turn faster or film fewer turns.`);
  }
  if (shutterS > 1 / fps + 1e-9) {
    return fail(
      `The shutter (${shutterS} s) is open longer than a frame of film lasts (1/${fps} s): shorten camera.shutterS.`,
    );
  }
  const loopRpm = (60 * fps) / framesPerTurn;
  const perFilmFrame = degPerFrame(loopRpm, fps);
  const step = (360 * turns) / count;
  const blurDeg = 6 * loopRpm * shutterS;
  const frames = Array.from({ length: count }, (_, index): TurnFrame => {
    const fromStart = index * step;
    const angle = startDeg + fromStart;
    return {
      index,
      timeS: fromStart / (6 * loopRpm),
      angleDeg: ((angle % 360) + 360) % 360,
      stepsDeg: Array.from({ length: blurSteps }, (_, k) => angle + (blurDeg * (k + 0.5)) / blurSteps),
    };
  });
  return ok({ frames, loopRpm, degPerFrame: perFilmFrame, blurDeg, durationS: (360 * turns) / (6 * loopRpm) });
}
