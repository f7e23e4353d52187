import type { Finding } from '../../analysis/contracts.ts';

export interface PinPlace {
  readonly finding: Finding;
  /** Null for a note: a small ring right where it is. */
  readonly number: number | null;
  /** Where the mark sits, pixels of the picture. */
  readonly xPx: number;
  readonly yPx: number;
  /** Where the finding is; the leader line ends there. Clamped to the edge when it lies outside. */
  readonly anchorXPx: number;
  readonly anchorYPx: number;
  /** Unit direction out of the picture for what lies outside it. */
  readonly outward: readonly [number, number] | null;
}

const MARK_PX = 22;
const EDGE_PX = 16;
/** Marks keep this far from what they point at, up and to the right. */
const STAND_OFF_PX = 16;

/**
 * Places the numbered marks: beside what they mean, inside the picture, and clear of one another. What lies outside the
 * frame is marked on the edge, in its direction from the middle.
 */
export function placePins(
  pins: readonly { readonly finding: Finding; readonly number: number | null }[],
  widthPx: number,
  heightPx: number,
): readonly PinPlace[] {
  const placed: PinPlace[] = [];
  for (const { finding, number } of pins) {
    const frame = finding.where.frame;
    if (!frame) continue;
    const inside = frame.u >= 0 && frame.u <= 1 && frame.v >= 0 && frame.v <= 1;
    const place = inside
      ? number === null
        ? placeAt(frame, widthPx, heightPx)
        : placeBeside(frame, (finding.where.outlineUv?.length ?? 0) > 2, widthPx, heightPx)
      : placeOnEdge(frame.u - 0.5, frame.v - 0.5, widthPx, heightPx);
    const clear = number === null ? {} : moveClear(place.xPx, place.yPx, placed, widthPx, heightPx);
    placed.push({ finding, number, ...place, ...clear });
  }
  return placed;
}

function placeAt(frame: { readonly u: number; readonly v: number }, widthPx: number, heightPx: number) {
  const xPx = frame.u * widthPx;
  const yPx = frame.v * heightPx;
  return { xPx, yPx, anchorXPx: xPx, anchorYPx: yPx, outward: null };
}

function placeBeside(
  frame: { readonly u: number; readonly v: number; readonly widthU: number; readonly heightV: number },
  hasOutline: boolean,
  widthPx: number,
  heightPx: number,
) {
  const right = Math.min(widthPx, (frame.u + frame.widthU / 2) * widthPx);
  const top = Math.max(0, (frame.v - frame.heightV / 2) * heightPx);
  return {
    // The leader ends at the outline's corner where there is one, so as not to cross what it means.
    anchorXPx: hasOutline ? right : frame.u * widthPx,
    anchorYPx: hasOutline ? top : frame.v * heightPx,
    xPx: clamp(right + STAND_OFF_PX, EDGE_PX, widthPx - EDGE_PX),
    yPx: clamp(top - STAND_OFF_PX, EDGE_PX, heightPx - EDGE_PX),
    outward: null,
  };
}

function placeOnEdge(du: number, dv: number, widthPx: number, heightPx: number) {
  const dx = du * widthPx;
  const dy = dv * heightPx;
  const toEdge = Math.min(
    (widthPx / 2 - EDGE_PX) / Math.max(1e-9, Math.abs(dx)),
    (heightPx / 2 - EDGE_PX) / Math.max(1e-9, Math.abs(dy)),
  );
  const length = Math.max(1e-9, Math.hypot(dx, dy));
  const outward: readonly [number, number] = [dx / length, dy / length];
  const xPx = widthPx / 2 + dx * toEdge;
  const yPx = heightPx / 2 + dy * toEdge;
  return { xPx, yPx, anchorXPx: xPx + outward[0] * EDGE_PX, anchorYPx: yPx + outward[1] * EDGE_PX, outward };
}

/** Walks down from the wanted place until no earlier mark is in the way; starts again from the top when it must. */
function moveClear(xPx: number, yPx: number, placed: readonly PinPlace[], widthPx: number, heightPx: number) {
  const taken = (x: number, y: number) =>
    placed.some((pin) => pin.number !== null && Math.hypot(pin.xPx - x, pin.yPx - y) < MARK_PX + 2);
  let x = xPx;
  let y = yPx;
  for (let tries = 0; tries < 40 && taken(x, y); tries++) {
    y += MARK_PX + 3;
    if (y > heightPx - EDGE_PX) {
      y = EDGE_PX;
      x = x + MARK_PX + 3 > widthPx - EDGE_PX ? EDGE_PX : x + MARK_PX + 3;
    }
  }
  return { xPx: x, yPx: y };
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
