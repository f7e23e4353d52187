import { SplitDivider } from '../frame/overlays/SplitDivider.tsx';
import { useFrameTools, useIsToolOpen } from '../frame/tools/frameToolsStore.ts';
import { useFrame } from '../session/index.ts';

/** The reference photo over the frame, faint or up to the divider. It fills the frame; what sticks out is cut. */
export function ReferenceOverlay() {
  const open = useIsToolOpen('reference');
  const { reference } = useFrame();
  const way = useFrameTools((state) => state.referenceWay);
  const opacity = useFrameTools((state) => state.referenceOpacity);
  const share = useFrameTools((state) => state.splitShare);
  if (!open || !reference || way === 'beside') return null;
  const style = way === 'over' ? { opacity } : { clipPath: `inset(0 ${Math.round((1 - share) * 1000) / 10}% 0 0)` };
  return (
    <>
      <img
        className="kg-overlay kg-reference-over"
        data-testid="reference-over"
        src={reference.dataUrl}
        alt=""
        style={style}
      />
      {way === 'split' && <SplitDivider leftWord="reference" rightWord="frame" />}
    </>
  );
}
