import { createCheckInput } from '../../src/analysis/checkInput.ts';
import type { CheckInput } from '../../src/analysis/contracts.ts';
import { fileStem } from '../../src/deliverables/exchange/setupFile.ts';
import { type FrameSet, openFrameSet } from '../../src/deliverables/frameSet.ts';
import { type PaperFrame, paperFrame } from '../../src/deliverables/papers.ts';
import { checkSettingsOf } from '../../src/document/checkSettings.ts';
import type { Setup } from '../../src/document/setup.ts';
import { InputError } from '../cli/inputError.ts';

/** One frame with all that the parts of a pack need of it; the costly ones are made when first asked for. */
export interface PackFrame {
  /** '1-wide': begins the name of every file of this frame. */
  readonly stem: string;
  readonly frameSet: FrameSet;
  checkInput(): CheckInput;
  paper(): PaperFrame;
}

export function openPackFrames(file: string, setup: Setup): PackFrame[] {
  return setup.frames.map((frame, i): PackFrame => {
    const opened = openFrameSet(setup, frame.id);
    if (!opened.ok) throw new InputError(`${file}: ${opened.error[0]?.message ?? 'a frame cannot be resolved'}`);
    const frameSet = opened.value;
    let input: CheckInput | undefined;
    let paper: PaperFrame | undefined;
    const checkInput = (): CheckInput => {
      input ??= { ...createCheckInput(frameSet.scene, frame.limits), ...checkSettingsFor(setup, frame) };
      return input;
    };
    return {
      stem: `${i + 1}-${fileStem(frame.name)}`,
      frameSet,
      checkInput,
      paper: () => {
        paper ??= paperFrame(frameSet, checkInput());
        return paper;
      },
    };
  });
}

function checkSettingsFor(setup: Setup, frame: Setup['frames'][number]) {
  const { frameId, marks, room, capture } = checkSettingsOf(setup, frame);
  return { frameId, marks, room, capture };
}
