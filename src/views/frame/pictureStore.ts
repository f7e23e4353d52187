import { createStore } from 'zustand/vanilla';
import type { ComposedPicture } from './paintPicture.ts';

/** The light in the picture on screen, for whoever meters it. `revision` moves when the buffer is written anew. */
export const pictureStore = createStore<{ readonly picture: ComposedPicture | null; readonly revision: number }>(
  () => ({
    picture: null,
    revision: 0,
  }),
);
