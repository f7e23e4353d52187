import { useSyncExternalStore } from 'react';

/** How much room the window gives: a desk monitor, a tablet on its side, or a narrow column. */
export type Room = 'wide' | 'medium' | 'narrow';

const WIDE = '(min-width: 1240px) and (min-height: 720px)';
const MEDIUM = '(min-width: 760px)';

const readRoom = (): Room =>
  window.matchMedia(WIDE).matches ? 'wide' : window.matchMedia(MEDIUM).matches ? 'medium' : 'narrow';

function subscribe(onChange: () => void): () => void {
  const queries = [WIDE, MEDIUM].map((query) => window.matchMedia(query));
  for (const query of queries) query.addEventListener('change', onChange);
  return () => {
    for (const query of queries) query.removeEventListener('change', onChange);
  };
}

export const useRoom = (): Room => useSyncExternalStore(subscribe, readRoom);
