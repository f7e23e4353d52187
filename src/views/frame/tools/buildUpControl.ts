import { createStore } from 'zustand/vanilla';
import { getFrameScene, sessionStore } from '../../session/index.ts';
import { buildUpLights, soloAtStep } from './buildUp.ts';
import { closeFrameTool, openFrameTool } from './frameToolsStore.ts';

interface BuildUpState {
  readonly step: number;
  /** Each light by itself, not added to those before it. */
  readonly alone: boolean;
}

export const buildUpStore = createStore<BuildUpState>(() => ({ step: 0, alone: false }));

/** What was soloed before the build-up, and what it soloes itself: anything else means that somebody took over. */
let before: readonly string[] = [];
let own: readonly string[] | null = null;
let stopWatching: (() => void) | null = null;

/** Shows the first light. The build-up is a solo that grows, so it acts on the finished film and begins no trace. */
export function beginBuildUp(): void {
  if (buildUpLights(getFrameScene().fixtures).length === 0) return;
  before = sessionStore.getState().soloFixtureIds;
  openFrameTool('buildUp');
  buildUpStore.setState({ step: 0 });
  show();
  stopWatching?.();
  stopWatching = sessionStore.subscribe((state, previous) => {
    if (state.soloFixtureIds !== previous.soloFixtureIds && state.soloFixtureIds !== own) leave();
    else if (state.frameId !== previous.frameId) endBuildUp();
  });
}

/** Puts back what was soloed before. */
export function endBuildUp(): void {
  leave();
  sessionStore.setState({ soloFixtureIds: before });
}

export function setBuildUpStep(step: number): void {
  const last = buildUpLights(getFrameScene().fixtures).length - 1;
  buildUpStore.setState({ step: Math.min(last, Math.max(0, step)) });
  show();
}

export const stepBuildUp = (by: number): void => setBuildUpStep(buildUpStore.getState().step + by);

export function setBuildUpAlone(alone: boolean): void {
  buildUpStore.setState({ alone });
  show();
}

function show(): void {
  const { step, alone } = buildUpStore.getState();
  own = soloAtStep(buildUpLights(getFrameScene().fixtures), step, alone);
  sessionStore.setState({ soloFixtureIds: own });
}

function leave(): void {
  stopWatching?.();
  stopWatching = null;
  own = null;
  closeFrameTool('buildUp');
}
