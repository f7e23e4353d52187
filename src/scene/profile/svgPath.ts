import { fail, ok, type Result } from '../../core/result.ts';
import type { CurvePoint } from './biarc.ts';

/** One side of a path, SVG coordinates (y down). */
export type PathSide =
  | { readonly type: 'line'; readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number }
  | {
      readonly type: 'curve';
      readonly x0: number;
      readonly y0: number;
      readonly x1: number;
      readonly y1: number;
      readonly at: (t: number) => CurvePoint;
      /** Circular arcs say so: tangent of a quarter of their angle, positive when it turns left with y up. */
      readonly bulge?: number;
    };

const MOST_LETTERS = 50_000;
const MOST_SIDES = 400;
const LARGEST = 1e6;

/** How many numbers each command takes. */
const COUNTS: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, Q: 4, A: 7, Z: 0 };

/**
 * Reads the path data of one SVG path: M L H V C Q A Z, absolute or relative (W3C Recommendation, Scalable Vector
 * Graphics (SVG) 1.1, second edition, section 8.3). One subpath only. Never throws; a fault names the place in the text.
 */
export function readSvgPath(data: string): Result<readonly PathSide[], string> {
  if (data.length > MOST_LETTERS) return fail(`the path has ${data.length} letters; at most ${MOST_LETTERS} are read`);
  const sides: PathSide[] = [];
  let at = 0;
  let x = 0;
  let y = 0;
  let startX = 0;
  let startY = 0;
  let begun = false;
  let closed = false;
  let command = '';
  const line = (toX: number, toY: number): void => {
    if (toX !== x || toY !== y) sides.push({ type: 'line', x0: x, y0: y, x1: toX, y1: toY });
    x = toX;
    y = toY;
  };
  for (;;) {
    at = skipBlanks(data, at);
    if (at >= data.length) break;
    const letter = data[at];
    if (/[A-Za-z]/.test(letter)) {
      command = letter;
      at++;
      if (COUNTS[command.toUpperCase()] === undefined)
        return fail(`"${letter}" at letter ${at} is not read: use M, L, H, V, C, Q, A and Z`);
    } else if (command === '' || command.toUpperCase() === 'Z') {
      return fail(`a number at letter ${at + 1} belongs to no command`);
    }
    const upper = command.toUpperCase();
    if (closed || (begun && upper === 'M'))
      return fail(`a second part begins at letter ${at}: give one closed outline only`);
    if (!begun && upper !== 'M') return fail('the path must begin with M');
    const count = COUNTS[upper];
    const n: number[] = [];
    for (let k = 0; k < count; k++) {
      const found = upper === 'A' && (k === 3 || k === 4) ? readFlag(data, at) : readNumber(data, at);
      if (!found) return fail(`"${command}" at letter ${at + 1} needs ${count} numbers; number ${k + 1} is missing`);
      if (Math.abs(found.value) > LARGEST) return fail(`the number before letter ${found.next + 1} is too large`);
      n.push(found.value);
      at = found.next;
    }
    const dx = command === upper ? 0 : x;
    const dy = command === upper ? 0 : y;
    switch (upper) {
      case 'M':
        x = startX = n[0] + dx;
        y = startY = n[1] + dy;
        begun = true;
        command = command === 'M' ? 'L' : 'l';
        break;
      case 'L':
        line(n[0] + dx, n[1] + dy);
        break;
      case 'H':
        line(n[0] + dx, y);
        break;
      case 'V':
        line(x, n[0] + dy);
        break;
      case 'C': {
        const p = [x, y, n[0] + dx, n[1] + dy, n[2] + dx, n[3] + dy, n[4] + dx, n[5] + dy];
        sides.push({ type: 'curve', x0: x, y0: y, x1: p[6], y1: p[7], at: (t) => onCubic(p, t) });
        [x, y] = [p[6], p[7]];
        break;
      }
      case 'Q': {
        const [cx, cy, ex, ey] = [n[0] + dx, n[1] + dy, n[2] + dx, n[3] + dy];
        // The same curve as a cubic: inner points two thirds of the way to the control point.
        const two = 2 / 3;
        const p = [x, y, x + (cx - x) * two, y + (cy - y) * two, ex + (cx - ex) * two, ey + (cy - ey) * two, ex, ey];
        sides.push({ type: 'curve', x0: x, y0: y, x1: ex, y1: ey, at: (t) => onCubic(p, t) });
        [x, y] = [ex, ey];
        break;
      }
      case 'A': {
        const [ex, ey] = [n[5] + dx, n[6] + dy];
        const side = ellipticSide(x, y, n[0], n[1], n[2], n[3] === 1, n[4] === 1, ex, ey);
        if (side) sides.push(side);
        else line(ex, ey);
        [x, y] = [ex, ey];
        break;
      }
      case 'Z':
        line(startX, startY);
        closed = true;
        break;
    }
    if (sides.length > MOST_SIDES) return fail(`the path has over ${MOST_SIDES} sides`);
  }
  return sides.length > 0 ? ok(sides) : fail('the path is empty');
}

function skipBlanks(text: string, from: number): number {
  let at = from;
  while (at < text.length && /[\s,]/.test(text[at])) at++;
  return at;
}

const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;

function readNumber(text: string, from: number): { value: number; next: number } | undefined {
  NUMBER.lastIndex = skipBlanks(text, from);
  const found = NUMBER.exec(text);
  if (!found) return undefined;
  const value = Number(found[0]);
  return Number.isFinite(value) ? { value, next: NUMBER.lastIndex } : undefined;
}

/** The flags of an arc are single digits and may stand with nothing between. */
function readFlag(text: string, from: number): { value: number; next: number } | undefined {
  const at = skipBlanks(text, from);
  return text[at] === '0' || text[at] === '1' ? { value: Number(text[at]), next: at + 1 } : undefined;
}

function onCubic(p: readonly number[], t: number): CurvePoint {
  const s = 1 - t;
  const [a, b, c, d] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
  let dx = 3 * (s * s * (p[2] - p[0]) + 2 * s * t * (p[4] - p[2]) + t * t * (p[6] - p[4]));
  let dy = 3 * (s * s * (p[3] - p[1]) + 2 * s * t * (p[5] - p[3]) + t * t * (p[7] - p[5]));
  if (Math.hypot(dx, dy) < 1e-12) {
    // A control point on its end: the curve sets out toward the next one.
    const far = t < 0.5 ? [p[4] - p[0], p[5] - p[1]] : [p[6] - p[2], p[7] - p[3]];
    [dx, dy] = Math.hypot(far[0], far[1]) > 1e-12 ? far : [p[6] - p[0], p[7] - p[1]];
  }
  return { x: a * p[0] + b * p[2] + c * p[4] + d * p[6], y: a * p[1] + b * p[3] + c * p[5] + d * p[7], dx, dy };
}

/** From end points to centre: SVG 1.1, appendix F.6.5 and F.6.6. Undefined for arcs without a radius or a span. */
function ellipticSide(
  x0: number,
  y0: number,
  rxIn: number,
  ryIn: number,
  tiltDeg: number,
  large: boolean,
  sweep: boolean,
  x1: number,
  y1: number,
): PathSide | undefined {
  let rx = Math.abs(rxIn);
  let ry = Math.abs(ryIn);
  if (rx < 1e-9 || ry < 1e-9 || (x0 === x1 && y0 === y1)) return undefined;
  const tilt = (tiltDeg * Math.PI) / 180;
  const c = Math.cos(tilt);
  const s = Math.sin(tilt);
  const hx = (x0 - x1) / 2;
  const hy = (y0 - y1) / 2;
  const px = c * hx + s * hy;
  const py = -s * hx + c * hy;
  const grow = (px / rx) ** 2 + (py / ry) ** 2;
  if (grow > 1) {
    rx *= Math.sqrt(grow);
    ry *= Math.sqrt(grow);
  }
  const over = (rx * ry) ** 2 - (rx * py) ** 2 - (ry * px) ** 2;
  const k = (large === sweep ? -1 : 1) * Math.sqrt(Math.max(0, over) / ((rx * py) ** 2 + (ry * px) ** 2));
  const qx = (k * rx * py) / ry;
  const qy = (-k * ry * px) / rx;
  const cx = c * qx - s * qy + (x0 + x1) / 2;
  const cy = s * qx + c * qy + (y0 + y1) / 2;
  const from = Math.atan2((py - qy) / ry, (px - qx) / rx);
  let span = Math.atan2((-py - qy) / ry, (-px - qx) / rx) - from;
  if (sweep && span < 0) span += 2 * Math.PI;
  if (!sweep && span > 0) span -= 2 * Math.PI;
  const at = (t: number): CurvePoint => {
    const a = from + span * t;
    const [ex, ey] = [rx * Math.cos(a), ry * Math.sin(a)];
    const [ux, uy] = [-rx * Math.sin(a) * Math.sign(span), ry * Math.cos(a) * Math.sign(span)];
    return { x: cx + c * ex - s * ey, y: cy + s * ex + c * ey, dx: c * ux - s * uy, dy: s * ux + c * uy };
  };
  const round = Math.abs(rx - ry) < 1e-9 * rx && Math.abs(span) < (7 / 4) * Math.PI;
  // With y down a growing angle turns right.
  return { type: 'curve', x0, y0, x1, y1, at, ...(round ? { bulge: -Math.tan(span / 4) } : {}) };
}
