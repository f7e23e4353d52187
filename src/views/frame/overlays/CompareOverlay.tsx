import { useEffect, useRef } from 'react';
import { useSession } from '../../session/index.ts';
import { developImage } from '../developImage.ts';
import { type KeptPicture, useFrameTools, useIsToolOpen } from '../tools/frameToolsStore.ts';
import { SplitDivider } from './SplitDivider.tsx';

/** The kept picture to the left of the divider, what there is now to the right. */
export function CompareOverlay() {
  const open = useIsToolOpen('compare');
  const frameId = useSession((state) => state.frameId);
  const kept = useFrameTools((state) => state.kept.get(frameId));
  if (!open || !kept) return null;
  return (
    <>
      <KeptCanvas kept={kept} />
      <SplitDivider leftWord="before" rightWord="now" />
    </>
  );
}

function KeptCanvas({ kept }: { readonly kept: KeptPicture }) {
  const ref = useRef<HTMLCanvasElement>(null);
  const mode = useSession((state) => state.pictureMode);
  const share = useFrameTools((state) => state.splitShare);
  useEffect(() => {
    const canvas = ref.current;
    const context = canvas?.getContext('2d', { alpha: false });
    if (!canvas || !context) return;
    canvas.width = kept.widthPx;
    canvas.height = kept.heightPx;
    const image = context.createImageData(kept.widthPx, kept.heightPx);
    developImage(kept.rgbNits, kept.camera, mode, image);
    context.putImageData(image, 0, 0);
  }, [kept, mode]);
  return (
    <canvas
      ref={ref}
      className="kg-overlay"
      data-testid="kept"
      style={{ clipPath: `inset(0 ${(1 - share) * 100}% 0 0)` }}
    />
  );
}
