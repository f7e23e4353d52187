import { createCheckInput } from '../../../src/analysis/checkInput.ts';
import { type FrameSet, openFrameSet } from '../../../src/deliverables/frameSet.ts';
import { type PaperFrame, paperFrame } from '../../../src/deliverables/papers.ts';
import type { Setup } from '../../../src/document/setup.ts';

export function openFrame(setup: Setup, frameIndex = 0): FrameSet {
  const opened = openFrameSet(setup, setup.frames[frameIndex].id);
  if (!opened.ok) throw new Error(opened.error[0]?.message);
  return opened.value;
}

export const openFrames = (setup: Setup): FrameSet[] => setup.frames.map((_, i) => openFrame(setup, i));

export const openPapers = (setup: Setup): PaperFrame[] =>
  openFrames(setup).map((frameSet) => paperFrame(frameSet, createCheckInput(frameSet.scene)));
