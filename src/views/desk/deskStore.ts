import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

interface DeskState {
  /** Lights picked so far for a new group; null while nobody is picking. */
  readonly picked: readonly string[] | null;
  /** Groups that show their own strip alone. */
  readonly foldedGroupIds: readonly string[];
}

export const deskStore = createStore<DeskState>(() => ({ picked: null, foldedGroupIds: [] }));
export const useDesk = <T>(selector: (state: DeskState) => T): T => useStore(deskStore, selector);

const toggled = (ids: readonly string[], id: string): readonly string[] =>
  ids.includes(id) ? ids.filter((other) => other !== id) : [...ids, id];

export const togglePicked = (fixtureId: string): void =>
  deskStore.setState(({ picked }) => ({ picked: picked && toggled(picked, fixtureId) }));

export const toggleFolded = (groupId: string): void =>
  deskStore.setState(({ foldedGroupIds }) => ({ foldedGroupIds: toggled(foldedGroupIds, groupId) }));
