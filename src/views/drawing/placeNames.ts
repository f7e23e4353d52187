import type { DimensionLayout } from './dimensionLayout.ts';
import type { SheetItem } from './sheet.ts';
import { type PxPoint, toPx, type WindowSize } from './sheetPx.ts';
import type { SheetView } from './sheetScale.ts';

export interface PlacedName {
  readonly recordId: string;
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Mean width of a letter and height of a line of names, for the type size in `drawing.css`. */
const LETTER_PX = 5.6;
const LINE_PX = 13;
const GAP_PX = 7;
/** Room for a dimension figure. */
const FIGURE_PX = 60;
/** Things drawn smaller than this stay unnamed unless they are selected: the names would hide them. */
const SMALLEST_NAMED_PX = 9;

/**
 * Sets names beside their things where they cover neither another thing nor another name, the selected one first.
 * Names keep clear of the dimensions too.
 */
export function placeNames(
  items: readonly SheetItem[],
  view: SheetView,
  size: WindowSize,
  selectedId: string | null,
  dimensions: readonly DimensionLayout[],
): PlacedName[] {
  const bodies = new Map(items.map((item) => [item.recordId, boxOf(item, view, size)]));
  const rank = (item: SheetItem): number =>
    item.recordId === selectedId ? 0 : item.collection === 'fixtures' ? 1 : item.collection === 'camera' ? 2 : 3;
  const taken: Box[] = [...items].filter(({ heldInside }) => heldInside).map((item) => bodyBox(bodies, item));
  for (const { figureAt, reach } of dimensions) taken.push(around(figureAt, FIGURE_PX), ...alongLine(reach));
  const placed: PlacedName[] = [];
  for (const item of [...items].sort((a, b) => rank(a) - rank(b))) {
    const body = bodyBox(bodies, item);
    const small = Math.max(body.right - body.left, body.bottom - body.top) < SMALLEST_NAMED_PX;
    if (small && item.recordId !== selectedId) continue;
    const choices = namePlaces(item, body);
    const free = choices.find(
      ({ box }) => inside(box, size) && !taken.some((other) => other !== body && overlap(box, other)),
    );
    const choice = free ?? (item.recordId === selectedId ? choices[0] : undefined);
    if (!choice) continue;
    taken.push(choice.box);
    placed.push(choice.name);
  }
  return placed;
}

/** Right of the thing, left, under, over; tables and backdrops along their lower and upper edges inside. */
function namePlaces(item: SheetItem, body: Box): { readonly box: Box; readonly name: PlacedName }[] {
  const width = item.name.length * LETTER_PX;
  const midX = (body.left + body.right) / 2;
  const midY = (body.top + body.bottom) / 2;
  const at = (x: number, middleY: number, anchor: PlacedName['anchor']) => {
    const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
    return {
      box: { left, right: left + width, top: middleY - LINE_PX / 2, bottom: middleY + LINE_PX / 2 },
      name: { recordId: item.recordId, text: item.name, x, y: middleY + 3.5, anchor },
    };
  };
  if (!item.heldInside) {
    return [
      at(body.left + GAP_PX, body.bottom - LINE_PX, 'start'),
      at(body.right - GAP_PX, body.bottom - LINE_PX, 'end'),
      at(body.left + GAP_PX, body.top + LINE_PX, 'start'),
      at(body.right - GAP_PX, body.top + LINE_PX, 'end'),
      at(body.left, body.bottom + LINE_PX, 'start'),
      at(body.left, body.top - LINE_PX, 'start'),
    ];
  }
  return [
    at(body.right + GAP_PX, midY, 'start'),
    at(body.left - GAP_PX, midY, 'end'),
    at(midX, body.bottom + GAP_PX + LINE_PX / 2, 'middle'),
    at(midX, body.top - GAP_PX - LINE_PX / 2, 'middle'),
    at(body.right + GAP_PX, body.top, 'start'),
    at(body.left - GAP_PX, body.bottom, 'end'),
  ];
}

function boxOf(item: SheetItem, view: SheetView, size: WindowSize): Box {
  const points = item.hull.map((p) => toPx(p, view, size));
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

const around = ([x, y]: PxPoint, widthPx: number): Box => ({
  left: x - widthPx / 2,
  right: x + widthPx / 2,
  top: y - LINE_PX / 2,
  bottom: y + LINE_PX / 2,
});

/** Boxes strung along a line, close enough that no name slips between them. */
function alongLine([a, b]: readonly [PxPoint, PxPoint]): Box[] {
  const count = Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / LINE_PX);
  return Array.from({ length: count + 1 }, (_, i) => {
    const t = i / Math.max(count, 1);
    return around([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t], 4);
  });
}

const bodyBox = (bodies: ReadonlyMap<string, Box>, item: SheetItem): Box =>
  bodies.get(item.recordId) ?? { left: 0, right: 0, top: 0, bottom: 0 };

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

const inside = (box: Box, { widthPx, heightPx }: WindowSize): boolean =>
  box.left >= 0 && box.right <= widthPx && box.top >= 0 && box.bottom <= heightPx;
