import type { FrameTool } from './frameToolsStore.ts';

interface ToolWords {
  readonly word: string;
  readonly key: string;
  readonly tip: string;
}

/** How each tool of the frame is called, its key, and what it does. */
export const TOOL_WORDS: Readonly<Record<FrameTool, ToolWords>> = {
  findings: { word: 'Findings', key: 'N', tip: 'Marks of what the checks found, where it happens.' },
  sharp: { word: 'Sharpness', key: 'Z', tip: 'Veils what is not sharp, in front of the focus and behind it.' },
  spill: { word: 'Spill', key: 'P', tip: 'Where the light of one fixture goes.' },
  crop: { word: 'Crop', key: 'C', tip: 'Delivery shapes and safe areas over the picture.' },
  compare: {
    word: 'Before',
    key: 'B',
    tip: 'Keeps this picture and splits the frame: before on the left, now on the right.',
  },
  buildUp: { word: 'Build-up', key: 'U', tip: 'The lights one after another, on the finished picture.' },
  loupe: { word: 'Loupe', key: 'O', tip: 'Traced pixels enlarged under the pointer, with their figures.' },
  turn: { word: 'Turn', key: 'T', tip: 'Turns the table.' },
  reference: { word: 'Reference', key: 'E', tip: 'A photo of the mood, beside the frame, over it or split with it.' },
};
