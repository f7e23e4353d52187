import { describeLevel } from '../../fixtures/describe.ts';
import type { FrameSet } from '../frameSet.ts';
import { isBackdrop, isBase } from '../pieceRoles.ts';
import { depthWords, type LengthUnits, lengthWords, sideWords, tiltWords } from '../plan/lengthWords.ts';
import { type PlaceOptions, type StandPlace, standPlaces } from '../plan/standPlaces.ts';
import { frameChanges } from './frameChanges.ts';
import type { HeroTime } from './heroClock.ts';
import { leadOf } from './kitList.ts';
import { type PredictedReading, SUBJECT_DOME_ID } from './predictedReadings.ts';
import type { Cell, Table } from './table.ts';

export interface BuildOptions extends PlaceOptions {
  /** Of the first frame; null or left out where there is no ice. */
  readonly heroTime?: HeroTime | null;
}

/** The order in which the set goes up, with the figure that shows each step is right; then what changes between frames. */
export function buildOrder(
  frames: readonly FrameSet[],
  readings: readonly (readonly PredictedReading[])[],
  options: BuildOptions = {},
): Table {
  const steps: { stage: string; what: string; check: string }[] = [];
  const add = (stage: string, what: string, check = ''): void => {
    steps.push({ stage, what, check });
  };
  const { lengths } = options;
  const [first] = frames;
  const { scene } = first;
  const { places } = standPlaces(first, options);
  const placeOf = (id: string): StandPlace | undefined => places.find(({ recordId }) => recordId === id);
  const ground = scene.pieces.filter((piece) => piece.kind === 'tabletop' || isBackdrop(piece));
  const base = scene.pieces.filter((piece) => isBase(piece) && !ground.includes(piece));
  for (const piece of ground) add('Set', `Put up ${piece.name}.`, piece.kind === 'tabletop' ? 'level both ways' : '');
  if (scene.turntable) {
    add(
      'Set',
      'Let in the turntable and centre it under the subject.',
      'run-out by dial gauge: as small as it will go',
    );
  }
  for (const piece of base) add('Set', `Lay ${piece.name}.`, 'level, clean, no dust in raking light');
  const rest = scene.pieces.filter(
    (piece) => piece.kind !== 'glass' && !ground.includes(piece) && !base.includes(piece),
  );
  if (rest.length > 0) add('Set', `Dress: ${rest.map(({ name }) => name).join(', ')}.`);
  add('Set', 'Mark the place of the subject with tape under it; all distances start there.');
  const camera = placeOf('camera');
  if (camera) {
    add(
      'Camera',
      `Set the camera: ${placeWords(camera, lengths)}.`,
      `${lengthWords(camera.horizontalM, lengths)} level from the subject; ${camera.what}`,
    );
    add('Camera', 'Put in the stand-in glass, frame up, lock off, focus.', 'edges of the frame as on the plan');
  }
  for (const { id, name } of byShare(first, readings[0])) {
    const place = placeOf(id);
    const fixture = scene.fixtures.find((f) => f.id === id);
    if (!place || !fixture) continue;
    const lux = domeLux(first, readings[0], id);
    add(
      'Lights',
      `${place.mark} ${name}: ${placeWords(place, lengths)}; ${describeLevel(fixture)}.`,
      !fixture.on || lux === null ? '' : `alone ${lux.toFixed(0)} lx on the dome at the subject`,
    );
  }
  for (const place of places.filter(({ kind }) => kind === 'grip')) {
    add('Flags, cards, cloths', `${place.mark} ${place.name}: ${placeWords(place, lengths)}.`);
  }
  add('Check', 'Bag every stand, bond what hangs, tape down cables, keep joints off the wet.', 'cautions page');
  add('Check', 'Meter all points, lights alone and together, and write the readings in.', 'meter sheet');
  const total = readings[0]?.find(({ point }) => point.id === SUBJECT_DOME_ID)?.totalLux;
  add(
    'Check',
    'Shoot the stand-in, look for reflections and flare.',
    total ? `dome ${total.toFixed(0)} lx, all lights` : '',
  );
  add('Hero', 'Swap in the hero drink last, ice from the cold, and shoot.', heroWords(options.heroTime));
  frames.slice(1).forEach((frame, i) => {
    const changes = frameChanges(frames[i], frame, lengths);
    const stage = `Then ${frame.frame.name}`;
    const place = standPlaces(frame, options).places.find(({ kind }) => kind === 'camera');
    if (place) add(stage, `Move the camera: ${placeWords(place, lengths)}.`, place.what);
    for (const change of changes) add(stage, change);
    if (changes.length === 0) add(stage, 'Lights and set stay as they are.');
  });
  return {
    id: 'build-order',
    title: 'Build order',
    lead: leadOf(frames),
    columns: [
      { title: 'Step', share: 6 },
      { title: 'Stage', share: 18 },
      { title: 'Do', share: 52 },
      { title: 'It is right when', share: 36 },
      { title: 'Done', share: 7, blank: true },
    ],
    rows: steps.map(({ stage, what, check }, i): Cell[] => [i + 1, stage, what, check, null]),
    notes: [
      `Lengths in ${lengths === 'feet' ? 'feet and inches' : 'mm'}, from the plumb line through the meter point and from the table top.`,
    ],
  };
}

const placeWords = (place: StandPlace, lengths?: LengthUnits): string =>
  `${sideWords(place.rightM, lengths)}, ${depthWords(place.frontM, lengths)}, ${lengthWords(place.heightM, lengths)} over the table, ${tiltWords(place.tiltDownRad)}`;

/** The light that does most for the subject goes up first. */
function byShare({ scene }: FrameSet, readings: readonly PredictedReading[] | undefined) {
  const dome = readings?.find(({ point }) => point.id === SUBJECT_DOME_ID);
  return scene.fixtures
    .map((fixture, i) => ({ id: fixture.id, name: fixture.name, lux: dome?.fixtureLux[i] ?? 0 }))
    .sort((a, b) => b.lux - a.lux);
}

function domeLux({ scene }: FrameSet, readings: readonly PredictedReading[] | undefined, id: string): number | null {
  const at = scene.fixtures.findIndex((fixture) => fixture.id === id);
  return readings?.find(({ point }) => point.id === SUBJECT_DOME_ID)?.fixtureLux[at] ?? null;
}

const heroWords = (time: HeroTime | null | undefined): string =>
  time
    ? `about ${minutes(time.likelyS)} min before the ice goes (an estimate, ${minutes(time.shortestS)} to ${minutes(time.longestS)})`
    : '';
const minutes = (seconds: number): string => (seconds / 60).toFixed(0);
