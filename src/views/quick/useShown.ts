import { type RefObject, useEffect, useRef } from 'react';

/**
 * Whether a canvas is in sight, as far as its surroundings say so (`data-hidden` on an ancestor). Calls back when it
 * comes into sight again, so that what it missed can be drawn.
 */
export function useShown(element: Element, onShown: () => void): RefObject<boolean> {
  const shown = useRef(true);
  const latest = useRef(onShown);
  useEffect(() => {
    latest.current = onShown;
  });
  useEffect(() => {
    const host = element.closest('[data-hidden]');
    if (!host) return;
    const read = () => {
      const now = host.getAttribute('data-hidden') !== 'true';
      if (now && !shown.current) latest.current();
      shown.current = now;
    };
    read();
    const observer = new MutationObserver(read);
    observer.observe(host, { attributes: true, attributeFilter: ['data-hidden'] });
    return () => observer.disconnect();
  }, [element]);
  return shown;
}
