import { useStore } from 'zustand';
import { createDocumentStore, type DocumentState } from '../../document/store.ts';

/** The open setup, its history and its commands. One per page. */
export const documentStore = createDocumentStore();

/** Reads the document in React; select the least that the component draws. */
export function useDocument<T>(selector: (state: DocumentState) => T): T {
  return useStore(documentStore, selector);
}
