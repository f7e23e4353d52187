import { formatShutter } from '../../camera/stops.ts';
import { documentStore, updateRecord, useFrameScene, useSession } from '../session/index.ts';
import { StepField } from '../theme/index.ts';
import {
  fNumberFromText,
  fNumberText,
  ISO_MARKS,
  SHUTTER_TIMES_S,
  secondsFromText,
  stepFNumber,
  stepOnScale,
} from './exposureScales.ts';

/** Stop, shutter, sensitivity and white balance of the frame on screen, each on its own scale. */
export function ExposureBar() {
  const { camera } = useFrameScene();
  const frameId = useSession((state) => state.frameId);
  const set = (label: string, patch: Readonly<Record<string, number>>): boolean => {
    if (!Object.values(patch).every((value) => Number.isFinite(value) && value > 0)) return false;
    documentStore.apply(label, [updateRecord('camera', frameId, patch)]);
    return true;
  };
  return (
    <fieldset className="kg-exposure" aria-label="Exposure">
      <StepField
        label="Stop"
        testId="stop"
        text={fNumberText(camera.apertureFNumber)}
        value={camera.apertureFNumber}
        onStep={(direction, large) =>
          set('Stop', { apertureFNumber: stepFNumber(camera.apertureFNumber, direction, large) })
        }
        onType={(text) => set('Stop', { apertureFNumber: fNumberFromText(text) })}
      />
      <StepField
        label="Shutter"
        testId="shutter"
        text={formatShutter(camera.shutterS).replace(' s', camera.shutterS < 0.3 ? '' : ' s')}
        value={camera.shutterS}
        onStep={(direction, large) =>
          set('Shutter', { shutterS: stepOnScale(SHUTTER_TIMES_S, camera.shutterS, direction, large) })
        }
        onType={(text) => set('Shutter', { shutterS: secondsFromText(text) })}
      />
      <StepField
        label="ISO"
        testId="iso"
        text={String(Math.round(camera.iso))}
        value={camera.iso}
        onStep={(direction, large) => set('ISO', { iso: stepOnScale(ISO_MARKS, camera.iso, direction, large) })}
        onType={(text) => set('ISO', { iso: Number.parseFloat(text.replace(/^\s*iso/i, '')) })}
      />
      <StepField
        label="White"
        testId="white-balance"
        text={`${Math.round(camera.whiteBalanceK)} K`}
        value={camera.whiteBalanceK}
        onStep={(direction, large) =>
          set('White balance', { whiteBalanceK: clampK(camera.whiteBalanceK + direction * (large ? 500 : 100)) })
        }
        onType={(text) => set('White balance', { whiteBalanceK: clampK(Number.parseFloat(text)) })}
      />
    </fieldset>
  );
}

const clampK = (cctK: number): number => Math.min(20000, Math.max(1500, cctK));
