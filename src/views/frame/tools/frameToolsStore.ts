import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Camera } from '../../../camera/records.ts';

/** What can be laid over the picture or done with it, in the order of the row under it. */
export const FRAME_TOOLS = [
  'findings',
  'sharp',
  'spill',
  'crop',
  'compare',
  'buildUp',
  'loupe',
  'turn',
  'reference',
] as const;
export type FrameTool = (typeof FRAME_TOOLS)[number];

/** A picture put aside, as light, so that it can be shown in stops as well. */
export interface KeptPicture {
  /** Width x height x 3, working RGB, cd/m2, row 0 at the top. */
  readonly rgbNits: Float32Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /** The camera that took it: its exposure and white balance go with it. */
  readonly camera: Camera;
  readonly samples: number;
}

/** How the reference photo is shown. */
export type ReferenceWay = 'beside' | 'over' | 'split';

export interface FrameToolsState {
  /** Tools that are in use, in the order in which they were taken up. */
  readonly open: readonly FrameTool[];
  /** Fixture whose light is shown apart; the first that burns when null. */
  readonly spillFixtureId: string | null;
  /** Where the picture is split, 0 at its left edge. */
  readonly splitShare: number;
  /** Pictures kept for comparing, by frame id. */
  readonly kept: ReadonlyMap<string, KeptPicture>;
  readonly referenceWay: ReferenceWay;
  readonly referenceOpacity: number;
}

export const INITIAL_FRAME_TOOLS: FrameToolsState = {
  open: ['findings'],
  spillFixtureId: null,
  splitShare: 0.5,
  kept: new Map(),
  referenceWay: 'beside',
  referenceOpacity: 0.5,
};

export const frameToolsStore = createStore<FrameToolsState>(() => INITIAL_FRAME_TOOLS);
export const useFrameTools = <T>(selector: (state: FrameToolsState) => T): T => useStore(frameToolsStore, selector);
export const useIsToolOpen = (tool: FrameTool): boolean => useFrameTools(({ open }) => open.includes(tool));

/** Tools that take the same place: taking up one puts the other away. */
const RIVALS: Readonly<Partial<Record<FrameTool, FrameTool>>> = { compare: 'reference', reference: 'compare' };

/** The tools in use once `tool` is taken up or put away. */
export function toolsAfterToggle(open: readonly FrameTool[], tool: FrameTool): readonly FrameTool[] {
  if (open.includes(tool)) return open.filter((other) => other !== tool);
  return [...open.filter((other) => other !== RIVALS[tool]), tool];
}

export function toggleFrameTool(tool: FrameTool): void {
  frameToolsStore.setState(({ open }) => ({ open: toolsAfterToggle(open, tool) }));
}

export function openFrameTool(tool: FrameTool): void {
  if (!frameToolsStore.getState().open.includes(tool)) toggleFrameTool(tool);
}

export function closeFrameTool(tool: FrameTool): void {
  if (frameToolsStore.getState().open.includes(tool)) toggleFrameTool(tool);
}
