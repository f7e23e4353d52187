import { type RefObject, useLayoutEffect, useState } from 'react';
import type { WindowSize } from './sheetPx.ts';

/** Size of an element in CSS pixels, kept up to date. Zero until it is laid out. */
export function useElementSize(ref: RefObject<Element | null>): WindowSize {
  const [size, setSize] = useState<WindowSize>({ widthPx: 0, heightPx: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const read = () => {
      const { width, height } = element.getBoundingClientRect();
      setSize((old) => (old.widthPx === width && old.heightPx === height ? old : { widthPx: width, heightPx: height }));
    };
    read();
    const observer = new ResizeObserver(read);
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
}
