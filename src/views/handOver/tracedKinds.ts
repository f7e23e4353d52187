import type { TracedKind } from '../session/index.ts';

interface KindWords {
  readonly name: string;
  readonly format: string;
  readonly line: string;
}

/** What is traced anew before it goes out, in words. */
export const TRACED_WORDS: Readonly<Record<TracedKind, KindWords>> = {
  picture: {
    name: 'Picture of this frame',
    format: 'JPEG, TIFF, PNG',
    line: 'Smoothed, with exposure, lens, samples and estimated error in the file.',
  },
  turn: {
    name: 'Turn of this frame',
    format: 'MP4, WebM',
    line: 'One round of the turntable that loops, blurred by its own speed and shutter.',
  },
  clientPage: {
    name: 'Page with all frames',
    format: 'HTML',
    line: 'The brief and every frame large, in one file that opens anywhere.',
  },
  contactSheet: { name: 'All frames on a sheet', format: 'PDF', line: 'Every frame with lens, stop and focus.' },
  lightByLight: {
    name: 'Light by light',
    format: 'PDF',
    line: 'Each light of this frame alone, then together with those before it.',
  },
  beforeAfter: {
    name: 'Before and after',
    format: 'PDF',
    line: 'Every frame as it was opened, and as it is now.',
  },
};
