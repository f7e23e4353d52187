import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

const searchStore = createStore<{ readonly open: boolean }>(() => ({ open: false }));
export const useSearchOpen = (): boolean => useStore(searchStore, (state) => state.open);
export const openSearch = (): void => searchStore.setState({ open: true });
export const closeSearch = (): void => searchStore.setState({ open: false });
