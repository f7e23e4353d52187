import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { ShelfRoom } from './shelfEntries.ts';

/** Which part of the shelf is open; null while it is shut. */
export const shelfStore = createStore<{ readonly room: ShelfRoom | null }>(() => ({ room: null }));
export const useShelfRoom = (): ShelfRoom | null => useStore(shelfStore, (state) => state.room);
export const openShelf = (room: ShelfRoom): void => shelfStore.setState({ room });
export const closeShelf = (): void => shelfStore.setState({ room: null });
