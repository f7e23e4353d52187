import { cameraExposure, meterStop } from '../../camera/exposure.ts';
import { formatShutter, formatStop } from '../../camera/stops.ts';
import type { FrameSet } from '../frameSet.ts';
import { recordMarks } from '../plan/recordMarks.ts';
import { evOf, type PredictedReading, SUBJECT_DOME_ID } from './predictedReadings.ts';
import { markedStop } from './shotList.ts';
import type { Cell, Table } from './table.ts';

const READ_NOTE =
  'Predicted from the setup: direct light, light by way of bounce cards and diffusion cloth, and what tables, sweeps and walls send back; what glass bends and small things reflect is left out.';

/** What the meter should read with all lights as set, with room to write what it does read. */
export function meterSheet(frameSet: FrameSet, readings: readonly PredictedReading[]): Table {
  const { camera } = frameSet.scene;
  const subjectEv = subjectEvOf(readings);
  const effective = cameraExposure(camera).effectiveFNumber;
  return {
    id: 'meter-sheet',
    title: 'Meter sheet: all lights',
    lead: leadOf(frameSet),
    columns: [
      { title: 'Point', share: 24 },
      { title: 'Meter held', share: 24 },
      { title: 'Target', unit: 'lx', share: 11 },
      { title: 'EV at ISO 100', digits: 1, share: 11 },
      { title: 'Stop', share: 13 },
      { title: 'From subject', unit: 'stops', digits: 1, share: 12 },
      { title: 'Bounced', unit: 'lx', share: 10 },
      { title: 'Read', share: 16, blank: true },
    ],
    rows: readings.map(({ point, totalLux, ev100, bounceLux }): Cell[] => [
      point.name,
      point.held,
      totalLux,
      ev100,
      stopWords(totalLux, point.meterC, frameSet),
      subjectEv === null || ev100 === null ? null : ev100 - subjectEv,
      bounceLux,
      null,
    ]),
    groupedColumns: 1,
    notes: [
      `Stops for ISO ${camera.iso} and ${formatShutter(camera.shutterS)}. The camera stands at ${markedStop(camera.apertureFNumber)}, which is ${formatStop(effective)} at this focus.`,
      'Dome: C = 340. Flat cell: C = 250 (ISO 2720). Take the hero away for the readings at the subject.',
      READ_NOTE,
    ],
  };
}

/** Each light alone as it is set: what to match one light at a time. */
export function lightByLightSheet(frameSet: FrameSet, readings: readonly PredictedReading[]): Table {
  const marks = recordMarks(frameSet.setup);
  const shown = readings.filter(
    ({ point }) => !point.id.startsWith('backdrop-') || point.id === 'backdrop-middle-centre',
  );
  return {
    id: 'meter-sheet-each-light',
    title: 'Meter sheet: each light alone',
    lead: leadOf(frameSet),
    columns: [
      { title: 'Light', share: 22 },
      { title: 'Point', share: 24 },
      { title: 'Meter held', share: 24 },
      { title: 'Target', unit: 'lx', share: 11 },
      { title: 'Stop', share: 13 },
      { title: 'Share of all', unit: '%', share: 11 },
      { title: 'Read', share: 16, blank: true },
    ],
    rows: frameSet.scene.fixtures.flatMap((fixture, i) =>
      fixture.on
        ? shown.map(({ point, fixtureLux, totalLux }): Cell[] => [
            `${marks.get(fixture.id) ?? ''}  ${fixture.name}`,
            point.name,
            point.held,
            fixtureLux[i],
            stopWords(fixtureLux[i], point.meterC, frameSet),
            totalLux > 0 ? (100 * fixtureLux[i]) / totalLux : null,
            null,
          ])
        : [],
    ),
    groupedColumns: 1,
    notes: ['Switch all other lights off; leave cards, cloths and flags where they stand.', READ_NOTE],
  };
}

const leadOf = ({ setup, frame }: FrameSet): string => `${setup.title}: ${frame.name}`;

const subjectEvOf = (readings: readonly PredictedReading[]): number | null =>
  readings.find(({ point }) => point.id === SUBJECT_DOME_ID)?.ev100 ?? null;

function stopWords(lux: number, meterC: number, { scene }: FrameSet): string {
  if (evOf(lux, meterC) === null) return 'no reading';
  const fNumber = meterStop(lux, scene.camera.iso, scene.camera.shutterS, meterC);
  return fNumber < 0.95 ? 'under f/1' : formatStop(fNumber);
}
