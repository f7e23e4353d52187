import { beforeEach, describe, expect, it } from 'vitest';
import { emptySetup } from '../../../src/document/defaults.ts';
import {
  addFrame,
  duplicateFrame,
  freeFrameName,
  moveFrame,
  removeFrame,
  renameFrame,
} from '../../../src/views/frames/frameCommands.ts';
import { documentStore, sessionStore } from '../../../src/views/session/index.ts';

const frames = () => documentStore.getState().setup.frames;
const names = () => frames().map(({ name }) => name);

beforeEach(() => {
  documentStore.load(emptySetup());
  sessionStore.setState({ frameId: 'frame:1' });
});

describe('frames', () => {
  it('are added with the camera of the one on screen and a desk of their own, and shown', () => {
    addFrame();
    expect(names()).toEqual(['Frame 1', 'Frame 2']);
    expect(frames()[1]).toMatchObject({ camera: frames()[0].camera, ownDesk: true, hidden: [] });
    expect(sessionStore.getState().frameId).toBe(frames()[1].id);
  });

  it('are copied beside the original, named, put in order and taken away, each undone by one step', () => {
    duplicateFrame('frame:1');
    renameFrame(frames()[1].id, 'Close-up');
    expect(names()).toEqual(['Frame 1', 'Close-up']);
    moveFrame(frames()[1].id, -1);
    expect(names()).toEqual(['Close-up', 'Frame 1']);
    removeFrame('frame:1');
    expect(names()).toEqual(['Close-up']);
    expect(sessionStore.getState().frameId).toBe(frames()[0].id);
    // The last one stays.
    removeFrame(frames()[0].id);
    expect(names()).toEqual(['Close-up']);
    for (let step = 0; step < 4; step++) documentStore.undo();
    expect(names()).toEqual(['Frame 1']);
  });

  it('get the first free number after a name that is taken', () => {
    expect(freeFrameName([{ name: 'Wide' }, { name: 'Wide 2' }], 'Wide')).toBe('Wide 3');
  });
});
