import { useCallback, useEffect } from 'react';
import { documentStore, sessionStore } from '../../session/index.ts';
import { isTyping } from '../../shell/isTyping.ts';
import { traceStore } from '../traceStore.ts';
import { beginBuildUp, endBuildUp, stepBuildUp } from './buildUpControl.ts';
import { FRAME_TOOLS, type FrameTool, frameToolsStore, toggleFrameTool } from './frameToolsStore.ts';
import { keepPicture } from './keptPicture.ts';
import { TOOL_WORDS } from './toolWords.ts';

/** Takes a tool up or puts it away, with what belongs to that. */
export function applyFrameTool(tool: FrameTool): void {
  const isOpen = frameToolsStore.getState().open.includes(tool);
  if (tool === 'turn' && documentStore.getState().setup.turntable === undefined) return;
  if (!isOpen && (tool === 'spill' || tool === 'compare') && traceStore.getState().film === null) return;
  if (!isOpen && tool === 'compare') {
    const { kept } = frameToolsStore.getState();
    if (!kept.has(sessionStore.getState().frameId)) keepPicture();
  }
  if (tool === 'buildUp') {
    if (isOpen) endBuildUp();
    else beginBuildUp();
    return;
  }
  toggleFrameTool(tool);
}

export const useFrameTool = (): ((tool: FrameTool) => void) => useCallback(applyFrameTool, []);

/** The keys of the row, of keeping a picture, and of the steps of a build-up. */
export function useFrameToolKeys(): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
      if (isTyping(event.target)) return;
      if (runKey(event.key)) event.preventDefault();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, []);
}

/** Pictures kept of one setup say nothing of another, even where its frames have the same ids. */
export function useForgetOnLoad(): void {
  useEffect(
    () =>
      documentStore.subscribe((state, before) => {
        if (state.loadCount !== before.loadCount) frameToolsStore.setState({ kept: new Map(), spillFixtureId: null });
      }),
    [],
  );
}

function runKey(key: string): boolean {
  const { open } = frameToolsStore.getState();
  if ((key === '[' || key === ']') && open.includes('buildUp')) {
    stepBuildUp(key === ']' ? 1 : -1);
    return true;
  }
  if (key.toLowerCase() === 'k') return keepPicture();
  const tool = FRAME_TOOLS.find((candidate) => TOOL_WORDS[candidate].key === key.toUpperCase());
  if (tool) applyFrameTool(tool);
  return tool !== undefined;
}
