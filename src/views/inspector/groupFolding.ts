import { type RefObject, useEffect } from 'react';

/** Groups that stand open until somebody folds them; those further down begin folded. */
const OPEN_AT_FIRST = 3;
const chosen = new Map<string, boolean>();

/** A group stays as it was left, on whatever record it comes up again. */
export const isFolded = (title: string, index: number): boolean => !(chosen.get(title) ?? index < OPEN_AT_FIRST);

/**
 * Remembers what is folded, and lets the titles be reached and worked from the keyboard. leva keeps the state of a folder
 * to itself, so its title is listened to.
 */
export function useGroupFolding(panel: RefObject<HTMLElement | null>, titles: readonly string[]): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the panel is made anew for other groups.
  useEffect(() => {
    const element = panel.current;
    if (!element) return;
    const isOpen = new Map(titles.map((title, index) => [title, !isFolded(title, index)]));
    const heads = [...element.querySelectorAll<HTMLElement>('svg + div')].flatMap((words) => {
      const head = words.parentElement;
      return head && isOpen.has(words.textContent ?? '') ? [head] : [];
    });
    const off = heads.map((head) => {
      const title = head.textContent ?? '';
      const show = () => head.setAttribute('aria-expanded', String(isOpen.get(title) ?? true));
      const onClick = () => {
        const open = !(isOpen.get(title) ?? true);
        isOpen.set(title, open);
        chosen.set(title, open);
        show();
      };
      const onKeyDown = (event: KeyboardEvent) => {
        if (event.key !== 'Enter' && event.key !== ' ') return;
        event.preventDefault();
        head.click();
      };
      head.tabIndex = 0;
      head.setAttribute('role', 'button');
      show();
      head.addEventListener('click', onClick);
      head.addEventListener('keydown', onKeyDown);
      return () => {
        head.removeEventListener('click', onClick);
        head.removeEventListener('keydown', onKeyDown);
      };
    });
    return () => {
      for (const stop of off) stop();
    };
  }, [panel]);
}
