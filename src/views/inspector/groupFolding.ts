import { type RefObject, useEffect } from 'react';

/** Groups that stand open until somebody folds them; those further down begin folded. */
const OPEN_AT_FIRST = 3;
const chosen = new Map<string, boolean>();

/** A group stays as it was left, on whatever record it comes up again. */
export const isFolded = (title: string, index: number): boolean => !(chosen.get(title) ?? index < OPEN_AT_FIRST);

/**
 * Remembers what is folded, and lets the titles be reached and worked from the keyboard. leva keeps the state of a folder
 * to itself and draws its titles later than the panel, so they are looked for and listened to.
 */
export function useGroupFolding(panel: RefObject<HTMLElement | null>, titles: readonly string[]): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the panel is made anew for other groups.
  useEffect(() => {
    const element = panel.current;
    if (!element) return;
    const isOpen = new Map(titles.map((title, index) => [title, !isFolded(title, index)]));
    const headOf = (target: EventTarget | null): HTMLElement | null => {
      const head = target instanceof Element ? target.closest<HTMLElement>('[data-fold]') : null;
      return head && element.contains(head) ? head : null;
    };
    const markHeads = () => {
      for (const words of element.querySelectorAll('svg + div')) {
        const head = words.parentElement;
        const title = words.textContent ?? '';
        if (!head || !isOpen.has(title) || head.dataset.fold === title) continue;
        head.dataset.fold = title;
        head.tabIndex = 0;
        head.setAttribute('role', 'button');
        head.setAttribute('aria-expanded', String(isOpen.get(title)));
      }
    };
    const onClick = ({ target }: MouseEvent) => {
      const head = headOf(target);
      const title = head?.dataset.fold;
      if (!head || title === undefined) return;
      const open = !isOpen.get(title);
      isOpen.set(title, open);
      chosen.set(title, open);
      head.setAttribute('aria-expanded', String(open));
    };
    const onKeyDown = (event: KeyboardEvent) => {
      const head = headOf(event.target);
      if (!head || (event.key !== 'Enter' && event.key !== ' ')) return;
      event.preventDefault();
      head.click();
    };
    markHeads();
    const observer = new MutationObserver(markHeads);
    observer.observe(element, { childList: true, subtree: true });
    element.addEventListener('click', onClick);
    element.addEventListener('keydown', onKeyDown);
    return () => {
      observer.disconnect();
      element.removeEventListener('click', onClick);
      element.removeEventListener('keydown', onKeyDown);
    };
  }, [panel]);
}
