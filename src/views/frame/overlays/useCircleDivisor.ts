import { DEFAULT_LIMITS } from '../../../analysis/limits.ts';
import { useFrame } from '../../session/index.ts';

/** What passes as sharp in the frame on screen, as the depth of field check takes it: sensor diagonal over this. */
export const useCircleDivisor = (): number =>
  useFrame().limits.circleOfConfusionDivisor ?? DEFAULT_LIMITS.circleOfConfusionDivisor;
