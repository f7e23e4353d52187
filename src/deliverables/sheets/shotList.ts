import { cameraSharpness } from '../../camera/depthOfField.ts';
import { cameraExposure } from '../../camera/exposure.ts';
import { formatShutter, formatStop } from '../../camera/stops.ts';
import { checkSettingsOf } from '../../document/checkSettings.ts';
import type { FrameSet } from '../frameSet.ts';
import { depthWords, type LengthUnits, lengthWords, sideWords, tiltWords } from '../plan/lengthWords.ts';
import { CAMERA_RECORD_ID, type PlaceOptions, standPlaces } from '../plan/standPlaces.ts';
import { residualRipple } from '../video/flicker.ts';
import { turnFigures } from '../video/turnFigures.ts';
import { frameChanges } from './frameChanges.ts';
import { leadOf } from './kitList.ts';
import type { Cell, Table } from './table.ts';

export type ShotOptions = PlaceOptions;

/** Every frame with the camera as it is to be set. */
export function shotList(frames: readonly FrameSet[], options: ShotOptions = {}): Table {
  return {
    id: 'shot-list',
    title: 'Shot list',
    lead: leadOf(frames),
    columns: [
      { title: 'No.', share: 5 },
      { title: 'Frame', share: 16 },
      { title: 'Kind', share: 7 },
      { title: 'Lens', unit: 'mm', share: 7 },
      { title: 'Sensor', unit: 'mm', share: 11 },
      { title: 'Stop', share: 9 },
      { title: 'Effective', share: 10 },
      { title: 'Shutter', share: 9 },
      { title: 'ISO', share: 6 },
      { title: 'White', unit: 'K', share: 7 },
      { title: 'Focus from lens', unit: 'mm', isLength: true, share: 9 },
      { title: options.lengths === 'feet' ? 'Sharp from, to' : 'Sharp from, to (mm)', share: 12 },
      { title: 'Camera stands', share: 24 },
      { title: 'To note', share: 34 },
    ],
    rows: frames.map((frameSet, i): Cell[] => {
      const { frame, scene } = frameSet;
      const { camera } = scene;
      const exposure = cameraExposure(camera);
      const place = standPlaces(frameSet, options).places.find(({ recordId }) => recordId === CAMERA_RECORD_ID);
      return [
        i + 1,
        frame.name,
        frame.kind,
        camera.focalLengthMm,
        `${camera.sensorWidthMm} x ${camera.sensorHeightMm}`,
        markedStop(camera.apertureFNumber),
        formatStop(exposure.effectiveFNumber),
        formatShutter(camera.shutterS),
        camera.iso,
        camera.whiteBalanceK,
        camera.focusDistanceM * 1000,
        sharpWords(frameSet, options.lengths),
        place
          ? `${sideWords(place.rightM, options.lengths)}, ${depthWords(place.frontM, options.lengths)}, lens ${lengthWords(place.heightM, options.lengths)} over the table, ${tiltWords(place.tiltDownRad)}`
          : '',
        noteWords(frames, i, options),
      ];
    }),
    notes: [
      'Effective: the stop that exposure feels at this focus. Sharp: circle of confusion of 1/1500 of the diagonal, from the lens.',
      ...(frames[0].setup.brief.notes === '' ? [] : [`From the brief: ${frames[0].setup.brief.notes}`]),
    ],
  };
}

/** As it is engraved on the lens. */
export const markedStop = (fNumber: number): string => `f/${Number(fNumber.toFixed(1))}`;

/** Less than this is not seen. Common practice, no source. */
const FLICKER_SHARE = 0.05;

function sharpWords({ scene }: FrameSet, lengths?: LengthUnits): string {
  const depth = cameraSharpness(scene.camera).depthOfField;
  if (!depth) return 'no image at this focus';
  return `${lengthWords(depth.nearM, lengths)}, ${Number.isFinite(depth.farM) ? lengthWords(depth.farM, lengths) : 'no end'}`;
}

function noteWords(frames: readonly FrameSet[], i: number, options: ShotOptions): string {
  const frameSet = frames[i];
  const notes: string[] = [];
  const settings = checkSettingsOf(frameSet.setup, frameSet.frame);
  const turn = frameSet.frame.kind === 'turn' ? turnFigures(frameSet.scene, settings.capture.pictureWidthPx) : null;
  if (turn) {
    notes.push(
      `Turn at ${turn.rpm} rpm: blur ${turn.blurPx.toFixed(1)} px, run-out ${turn.runOutPx.toFixed(1)} px at ${turn.widthPx} px across.`,
    );
  }
  const { mainsHz } = settings.room;
  const ripple = residualRipple(mainsHz, frameSet.scene.camera.shutterS);
  if (ripple > FLICKER_SHARE) {
    notes.push(`At ${mainsHz} Hz mains ${Math.round(100 * ripple)} % of a lamp's ripple stays in the exposure.`);
  }
  if (i > 0) {
    const changes = frameChanges(frames[i - 1], frameSet, options.lengths);
    const few = changes.slice(0, 3).join(' ');
    notes.push(changes.length > 3 ? `${few} And ${changes.length - 3} more, see the build order.` : few);
  }
  return notes.filter((note) => note !== '').join(' ');
}
