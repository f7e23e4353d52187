import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

/** One calm message at a time, in a strip under the top bar. */
export interface Notice {
  /** 'trouble' stays until it is put away, 'busy' until the next message; 'done' goes by itself. */
  readonly tone: 'trouble' | 'busy' | 'done';
  readonly text: string;
  /** The field and what to do about it, when the text alone does not say. */
  readonly detail?: string;
  /** One thing that can be done about it. */
  readonly action?: { readonly label: string; run(): void };
}

export const noticeStore = createStore<{ readonly notice: Notice | null }>(() => ({ notice: null }));
export const useNotice = (): Notice | null => useStore(noticeStore, (state) => state.notice);
export const showNotice = (notice: Notice): void => noticeStore.setState({ notice });
export const clearNotice = (): void => noticeStore.setState({ notice: null });
