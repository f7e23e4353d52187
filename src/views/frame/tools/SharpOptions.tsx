import { circleOfConfusionM, computeDepthOfField } from '../../../camera/depthOfField.ts';
import { useFrameScene } from '../../session/index.ts';
import { useCircleDivisor } from '../overlays/useCircleDivisor.ts';

/** The limits of the sharp depth, and how the veil is read. */
export function SharpOptions() {
  const { camera } = useFrameScene();
  const divisor = useCircleDivisor();
  const { focalLengthMm, apertureFNumber, focusDistanceM, pupilRatio } = camera;
  const cocM = circleOfConfusionM(camera, divisor);
  const depth = computeDepthOfField(focalLengthMm / 1000, apertureFNumber, focusDistanceM, cocM, pupilRatio);
  return (
    <>
      {depth ? (
        <p>
          <span className="kg-label">Sharp from </span>
          <span className="kg-figure">
            {depth.nearM.toFixed(3)}
            <span className="kg-unit">m</span>
          </span>
          <span className="kg-label"> to </span>
          <span className="kg-figure">
            {Number.isFinite(depth.farM) ? depth.farM.toFixed(3) : '\u221e'}
            <span className="kg-unit">m</span>
          </span>
        </p>
      ) : (
        <p className="kg-quiet">Focused inside the focal length: nothing is sharp.</p>
      )}
      <p className="kg-tool-legend">
        <i className="kg-hatch" data-side="front" /> in front
        <i className="kg-hatch" data-side="behind" /> behind
      </p>
      <p className="kg-quiet kg-tool-rest">Circle of confusion {(cocM * 1000).toFixed(3)} mm</p>
    </>
  );
}
