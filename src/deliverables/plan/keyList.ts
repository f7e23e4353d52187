import { box, type Mark, type PointMm, text } from '../paper/marks.ts';
import { fitText, textWidthMm } from '../paper/typeset.ts';
import { depthWords, type LengthUnits, lengthWords, sideWords, tiltWords } from './lengthWords.ts';
import { type Area, columnHeading } from './sheetFrame.ts';
import type { StandPlace } from './standPlaces.ts';

const PAD_MM = 2.5;
const MARK_COLUMN_MM = 9;
const ROW_PT = 6.6;
const LINE_MM = 2.85;
const ENTRY_GAP_MM = 1.5;

/** The list of marks in the column: what each is, where it stands and how it looks. */
export function drawKeyList(
  places: readonly StandPlace[],
  notes: readonly string[],
  column: Area,
  lengths: LengthUnits = 'mm',
): Mark[] {
  const x = column.xMm + PAD_MM;
  const widthMm = column.widthMm - 2 * PAD_MM;
  const marks: Mark[] = [...columnHeading('Where things stand', [x, column.yMm + 5.5], widthMm)];
  let y = column.yMm + 9.8;
  const noteLines = notes.length;
  const bottom = column.yMm + column.heightMm - noteLines * LINE_MM - 3;
  const heights = places.map((place) => entryLines(place, lengths).length * LINE_MM + ENTRY_GAP_MM);
  let drawn = 0;
  for (const place of places) {
    const more = places.length - drawn - 1;
    // The last line of a full column says how many are left out.
    if (y + heights[drawn] > bottom - (more > 0 ? LINE_MM : 0)) break;
    marks.push(...drawEntry(place, [x, y], widthMm, lengths));
    y += heights[drawn];
    drawn++;
  }
  if (drawn < places.length) {
    const left = places.length - drawn;
    marks.push(text([x, y], `and ${left} more: see the fixture schedule`, ROW_PT, { weight: 'bold' }));
  }
  notes.forEach((note, i) => {
    const at: PointMm = [x, bottom + 2.4 + i * LINE_MM];
    marks.push(text(at, fitText(note, ROW_PT - 0.4, widthMm), ROW_PT - 0.4, { grey: 0.25 }));
  });
  return marks;
}

function entryLines(place: StandPlace, lengths: LengthUnits): string[] {
  const over = place.heightOverFloorM === null ? '' : ` (floor ${lengthWords(place.heightOverFloorM, lengths)})`;
  return [
    place.what,
    `${lengthWords(place.horizontalM, lengths)} level from subject: ${sideWords(place.rightM, lengths)}, ${depthWords(place.frontM, lengths)}`,
    `${lengthWords(place.heightM, lengths)} over table${over}, aims at ${lengthWords(place.aimHeightM, lengths)}, ${tiltWords(place.tiltDownRad)}`,
  ];
}

function drawEntry(place: StandPlace, [x, y]: PointMm, widthMm: number, lengths: LengthUnits): Mark[] {
  const [what, ...rest] = entryLines(place, lengths);
  const left = x + MARK_COLUMN_MM;
  const roomMm = widthMm - MARK_COLUMN_MM;
  const name = place.name === what ? '' : place.name;
  const nameMm = name === '' ? 0 : textWidthMm(name, ROW_PT, 'bold') + 1.6;
  const markBoxMm = Math.max(4, textWidthMm(place.mark, ROW_PT, 'bold') + 1.6);
  const stroke = { widthMm: 0.18 };
  const ring: Mark =
    place.kind === 'fixture' && markBoxMm <= 4
      ? { type: 'circle', centreMm: [x + 2, y - 0.75], radiusMm: 2, stroke }
      : box([x, y - 2.75], markBoxMm, 4, { stroke });
  return [
    ring,
    text([x + (place.kind === 'fixture' && markBoxMm <= 4 ? 2 : markBoxMm / 2), y + 0.1], place.mark, ROW_PT, {
      weight: 'bold',
      anchor: 'middle',
    }),
    ...(name === '' ? [] : [text([left, y], fitText(name, ROW_PT, roomMm, 'bold'), ROW_PT, { weight: 'bold' })]),
    ...(nameMm < roomMm - 8 ? [text([left + nameMm, y], fitText(what, ROW_PT, roomMm - nameMm), ROW_PT)] : []),
    ...rest.map((words, i) => text([left, y + (i + 1) * LINE_MM], fitText(words, ROW_PT, roomMm), ROW_PT)),
  ];
}
