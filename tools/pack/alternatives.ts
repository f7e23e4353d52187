import { fileStem } from '../../src/deliverables/exchange/setupFile.ts';
import { type FrameSet, openFrameSet } from '../../src/deliverables/frameSet.ts';
import type { Frame, Setup } from '../../src/document/setup.ts';

/** Another setup to lay beside the one that is packed. */
export interface Alternative {
  readonly title: string;
  readonly stem: string;
  /** The frame of the same id, else of the same name; null when there is none. */
  frameOf(frame: Pick<Frame, 'id' | 'name'>): FrameSet | null;
}

export function alternativeOf(setup: Setup): Alternative {
  const opened = new Map<string, FrameSet | null>();
  return {
    title: setup.title,
    stem: fileStem(setup.title),
    frameOf({ id, name }) {
      const match = setup.frames.find((frame) => frame.id === id) ?? setup.frames.find((frame) => frame.name === name);
      if (!match) return null;
      const known = opened.get(match.id);
      if (known !== undefined) return known;
      const made = openFrameSet(setup, match.id);
      opened.set(match.id, made.ok ? made.value : null);
      return made.ok ? made.value : null;
    },
  };
}
