import { useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useEffect, useMemo } from 'react';
import { Vector3 } from 'three';
import { useFrameScene, useSession, useSetModel } from '../session/index.ts';
import { type StageTag, stageTags } from './stageTags.ts';

export function useStageTags(): readonly StageTag[] {
  const scene = useFrameScene();
  const set = useSetModel();
  const selectedId = useSession((state) => state.selectedId);
  const hoveredId = useSession((state) => state.hoveredId);
  const dragging = useSession((state) => state.dragging);
  return useMemo(
    () => stageTags(scene, set, selectedId, hoveredId, dragging),
    [scene, set, selectedId, hoveredId, dragging],
  );
}

/** The words over the stage. {@link TagPlacer} puts them where they belong in each frame. */
export function TagLayer({ layerRef }: { readonly layerRef: RefObject<HTMLDivElement | null> }) {
  const tags = useStageTags();
  return (
    <div ref={layerRef} className="kg-stage-tags" aria-hidden="true">
      {tags.map(({ id, text, emphasis }) => (
        <span key={id} data-tag={id} data-emphasis={emphasis}>
          {text}
        </span>
      ))}
    </div>
  );
}

const GAP_PX = 8;
const point = new Vector3();

/** Lives in the canvas and moves the words of the layer with it; no React work per frame. */
export function TagPlacer({ layerRef }: { readonly layerRef: RefObject<HTMLDivElement | null> }) {
  const tags = useStageTags();
  const invalidate = useThree((state) => state.invalidate);
  // biome-ignore lint/correctness/useExhaustiveDependencies: other words need another frame
  useEffect(() => invalidate(), [tags, invalidate]);
  useFrame(({ camera, size }) => {
    const layer = layerRef.current;
    if (!layer) return;
    const elements = new Map<string, HTMLElement>();
    for (const child of layer.children) {
      if (child instanceof HTMLElement && child.dataset.tag) elements.set(child.dataset.tag, child);
    }
    const taken: DOMRect[] = [];
    for (const { id, atM, emphasis } of tags) {
      const element = elements.get(id);
      if (!element) continue;
      point.set(...atM).project(camera);
      const x = (point.x * 0.5 + 0.5) * size.width;
      const y = (0.5 - point.y * 0.5) * size.height;
      const width = element.offsetWidth;
      const height = element.offsetHeight;
      const beside = x + GAP_PX + width > size.width ? x - GAP_PX - width : x + GAP_PX;
      const box =
        emphasis === 'figure'
          ? new DOMRect(beside, y - height / 2, width, height)
          : new DOMRect(x - width / 2, y - height - GAP_PX, width, height);
      const free = point.z < 1 && !taken.some((other) => overlap(box, other));
      element.style.visibility = free ? 'visible' : 'hidden';
      element.style.transform = `translate(${box.x.toFixed(1)}px, ${box.y.toFixed(1)}px)`;
      if (free) taken.push(box);
    }
  });
  return null;
}

const overlap = (a: DOMRect, b: DOMRect): boolean =>
  a.left < b.right + 4 && b.left < a.right + 4 && a.top < b.bottom + 2 && b.top < a.bottom + 2;
