import { box, type Mark, type PointMm, text } from '../paper/marks.ts';
import { fitText, textWidthMm } from '../paper/typeset.ts';
import { depthWords, type LengthUnits, lengthWords, sideWords, tiltWords } from './lengthWords.ts';
import { type Area, columnHeading } from './sheetFrame.ts';
import type { StandPlace } from './standPlaces.ts';

const PAD_MM = 2.5;
const MARK_COLUMN_MM = 10.5;
/** Sizes of the list, the largest that fits is taken: [type, line to line, from entry to entry]. */
const SIZES: readonly TypeSize[] = [
  { pt: 8, lineMm: 3.45, gapMm: 2.2 },
  { pt: 7.4, lineMm: 3.2, gapMm: 1.9 },
  { pt: 6.6, lineMm: 2.85, gapMm: 1.5 },
];
const NOTE_PT = 6.2;
const NOTE_LINE_MM = 2.85;

interface TypeSize {
  readonly pt: number;
  readonly lineMm: number;
  readonly gapMm: number;
}

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
  const bottom = column.yMm + column.heightMm - notes.length * NOTE_LINE_MM - 3;
  const entries = places.map((place) => [`${place.name} ${place.what}`, ...entryLines(place, lengths).slice(1)]);
  const size = SIZES.find((tried) => fits(entries, tried, widthMm, bottom - y)) ?? SIZES[SIZES.length - 1];
  const heights = entries.map((lines) => lines.length * size.lineMm + size.gapMm);
  let drawn = 0;
  for (const place of places) {
    const more = places.length - drawn - 1;
    // The last line of a full column says how many are left out.
    if (y + heights[drawn] > bottom - (more > 0 ? size.lineMm : 0)) break;
    marks.push(...drawEntry(place, [x, y], widthMm, { lengths, size }));
    y += heights[drawn];
    drawn++;
  }
  if (drawn < places.length) {
    const left = places.length - drawn;
    marks.push(text([x, y], `and ${left} more: see the fixture schedule`, size.pt, { weight: 'bold' }));
  }
  notes.forEach((note, i) => {
    const at: PointMm = [x, bottom + 2.4 + i * NOTE_LINE_MM];
    marks.push(text(at, fitText(note, NOTE_PT, widthMm), NOTE_PT, { grey: 0.25 }));
  });
  return marks;
}

/** Do all entries fit into the column, each line whole? */
function fits(entries: readonly (readonly string[])[], size: TypeSize, widthMm: number, heightMm: number): boolean {
  const whole = entries.reduce((sum, lines) => sum + lines.length * size.lineMm + size.gapMm, 0);
  const roomMm = widthMm - MARK_COLUMN_MM;
  return (
    whole <= heightMm &&
    entries.every((lines) =>
      lines.every((line, i) => textWidthMm(line, size.pt, i === 0 ? 'bold' : 'regular') <= roomMm),
    )
  );
}

function entryLines(place: StandPlace, lengths: LengthUnits): string[] {
  const over = place.heightOverFloorM === null ? '' : ` (floor ${lengthWords(place.heightOverFloorM, lengths)})`;
  return [
    place.what,
    `${lengthWords(place.horizontalM, lengths)} level from subject: ${sideWords(place.rightM, lengths)}, ${depthWords(place.frontM, lengths)}`,
    `${lengthWords(place.heightM, lengths)} over table${over}, aims at ${lengthWords(place.aimHeightM, lengths)}, ${tiltWords(place.tiltDownRad)}`,
  ];
}

function drawEntry(
  place: StandPlace,
  [x, y]: PointMm,
  widthMm: number,
  { lengths, size }: { readonly lengths: LengthUnits; readonly size: TypeSize },
): Mark[] {
  const [what, ...rest] = entryLines(place, lengths);
  const left = x + MARK_COLUMN_MM;
  const roomMm = widthMm - MARK_COLUMN_MM;
  const name = place.name === what ? '' : place.name;
  const nameMm = name === '' ? 0 : textWidthMm(name, size.pt, 'bold') + 1.6;
  const markBoxMm = Math.max(4, textWidthMm(place.mark, size.pt, 'bold') + 1.6);
  const stroke = { widthMm: 0.18 };
  const ring: Mark =
    place.kind === 'fixture' && markBoxMm <= 4
      ? { type: 'circle', centreMm: [x + 2, y - 0.75], radiusMm: 2, stroke }
      : box([x, y - 2.75], markBoxMm, 4, { stroke });
  return [
    ring,
    text([x + (place.kind === 'fixture' && markBoxMm <= 4 ? 2 : markBoxMm / 2), y + 0.1], place.mark, size.pt, {
      weight: 'bold',
      anchor: 'middle',
    }),
    ...(name === '' ? [] : [text([left, y], fitText(name, size.pt, roomMm, 'bold'), size.pt, { weight: 'bold' })]),
    ...(nameMm < roomMm - 8 ? [text([left + nameMm, y], fitText(what, size.pt, roomMm - nameMm), size.pt)] : []),
    ...rest.map((words, i) => text([left, y + (i + 1) * size.lineMm], fitText(words, size.pt, roomMm), size.pt)),
  ];
}
