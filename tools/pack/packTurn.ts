import { csvFromTable } from '../../src/deliverables/sheets/csv.ts';
import type { Table } from '../../src/deliverables/sheets/table.ts';
import { planTurn, type TurnPlan } from '../../src/deliverables/video/turnPlan.ts';
import { checkSettingsOf } from '../../src/document/checkSettings.ts';
import { InputError } from '../cli/inputError.ts';
import type { PackFrame } from './openPackFrames.ts';
import type { Output } from './output.ts';
import type { Pictures } from './pictures.ts';

export interface TurnSettings {
  /** Pictures of one round; 'all' for every frame of the film. */
  readonly turnFrames: number | 'all';
  /** Moments that are averaged into each picture for its motion blur. */
  readonly blurSteps: number;
}

/** Frames that turn, as numbered pictures through one round with motion blur, and the list of their angles. */
export async function packTurn(
  output: Output,
  frames: readonly PackFrame[],
  pictures: Pictures,
  { turnFrames, blurSteps }: TurnSettings,
): Promise<void> {
  for (const { stem, frameSet } of frames) {
    const { setup, frame, scene } = frameSet;
    if (frame.kind !== 'turn' || !scene.turntable) continue;
    const plan = planTurn({
      rpm: scene.turntable.rpm,
      fps: checkSettingsOf(setup, frame).capture.framesPerS,
      shutterS: scene.camera.shutterS,
      startDeg: scene.turntableAngleDeg,
      blurSteps,
      ...(turnFrames === 'all' ? {} : { frameCount: turnFrames }),
    });
    if (!plan.ok) throw new InputError(`frame ${frame.name}: ${plan.error}`);
    output.write(`turn/${stem}/angles.csv`, csvFromTable(angleTable(plan.value)));
    const digits = Math.max(4, String(plan.value.frames.length).length);
    for (const { index, stepsDeg } of plan.value.frames) {
      const moments = stepsDeg.map((angleDeg) => ({ ...scene, turntableAngleDeg: angleDeg }));
      const what = `${frame.name}, ${index + 1} of ${plan.value.frames.length}`;
      const png = await pictures.ofMoments(moments, what);
      output.write(`turn/${stem}/${String(index + 1).padStart(digits, '0')}.png`, png);
    }
  }
}

const angleTable = ({ frames, loopRpm }: TurnPlan): Table => ({
  id: 'angles',
  title: 'Angles of the turn',
  columns: [
    { title: 'Picture', share: 1 },
    { title: 'Time', unit: 's', digits: 4, share: 1 },
    { title: 'Shutter opens at', unit: '\u00b0', digits: 4, share: 1 },
    { title: 'Speed', unit: 'rpm', digits: 4, share: 1 },
  ],
  rows: frames.map(({ index, timeS, angleDeg }) => [index + 1, timeS, angleDeg, loopRpm]),
  notes: [],
});
