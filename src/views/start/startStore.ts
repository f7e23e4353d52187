import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

/** Which page of the beginning is open: the ways to begin, or the brief; null over the set. */
export type StartPage = 'ways' | 'brief';

const startStore = createStore<{ readonly page: StartPage | null }>(() => ({ page: null }));
export const useStartPage = (): StartPage | null => useStore(startStore, (state) => state.page);
export const openStart = (page: StartPage = 'ways'): void => startStore.setState({ page });
export const closeStart = (): void => startStore.setState({ page: null });
export const isStartOpen = (): boolean => startStore.getState().page !== null;
