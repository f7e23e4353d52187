import { type RefObject, useEffect } from 'react';
import type { RecordSheet } from './fields.ts';

const DIRECTIONS = { x: 'right', y: 'up', z: 'toward the camera' } as const;

/** leva labels only the first of the three figures of a point: gives each a name of its own for those who hear the page. */
export function useComponentNames(panel: RefObject<HTMLElement | null>, sheet: RecordSheet): void {
  useEffect(() => {
    const root = panel.current;
    if (!root) return;
    const name = (): void => {
      for (const group of sheet.groups) {
        for (const field of group.fields) {
          if (field.type !== 'point') continue;
          for (const [axis, words] of Object.entries(DIRECTIONS)) {
            const input = document.getElementById(`${group.title}.${field.key}.${axis}`);
            input?.setAttribute('aria-label', `${field.label}, ${words}, ${field.unit ?? ''}`);
          }
        }
      }
    };
    name();
    // Folded groups come up later.
    const observer = new MutationObserver(name);
    observer.observe(root, { childList: true, subtree: true });
    return () => observer.disconnect();
  }, [panel, sheet]);
}
