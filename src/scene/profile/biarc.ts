/** A place on a plane curve and the direction of travel there (any length but 0). */
export interface CurvePoint {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/** A point and the bulge (tangent of a quarter of the angle) of the arc from it to the next. */
export interface ArcPoint {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

const MOST_HALVINGS = 7;
/** Where along a stretch the arcs are compared with the curve. */
const CHECKED = [0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875] as const;

/**
 * Arcs that follow a smooth curve and share its direction wherever two of them meet: two arcs for each stretch (a biarc;
 * K. M. Bolton, "Biarc curves", Computer-Aided Design 7(2), 1975), stretches halved until they stay within `tolerance`.
 * Returns the arcs' first points; the curve's last point is left to the caller.
 *
 * @param at the curve for t in 0..1
 */
export function fitBiarcs(at: (t: number) => CurvePoint, tolerance: number): ArcPoint[] {
  const out: ArcPoint[] = [];
  const follow = (t0: number, t1: number, halvings: number): void => {
    const a = at(t0);
    const b = at(t1);
    const pair = biarc(a, b);
    const misses = CHECKED.some((s) => !(distanceToArcs(pair, b, at(t0 + (t1 - t0) * s)) <= tolerance));
    if (misses && halvings < MOST_HALVINGS) {
      const middle = (t0 + t1) / 2;
      follow(t0, middle, halvings + 1);
      follow(middle, t1, halvings + 1);
    } else out.push(...pair);
  };
  follow(0, 1, 0);
  return out;
}

/** The two arcs between two places with equal tangent lengths. */
function biarc(a: CurvePoint, b: CurvePoint): [ArcPoint, ArcPoint] {
  const ua = unit(a);
  const ub = unit(b);
  const vx = b.x - a.x;
  const vy = b.y - a.y;
  const v2 = vx * vx + vy * vy;
  const tx = ua.x + ub.x;
  const ty = ua.y + ub.y;
  const vt = vx * tx + vy * ty;
  const curl = 2 * (1 - (ua.x * ub.x + ua.y * ub.y));
  let d: number;
  if (curl > 1e-9) d = (-vt + Math.sqrt(vt * vt + curl * v2)) / curl;
  else {
    const along = vx * ub.x + vy * ub.y;
    d = Math.abs(along) > 1e-12 ? v2 / (4 * along) : Math.sqrt(v2) / 2;
  }
  const jx = (a.x + b.x + d * (ua.x - ub.x)) / 2;
  const jy = (a.y + b.y + d * (ua.y - ub.y)) / 2;
  return [
    { x: a.x, y: a.y, bulge: Math.tan(turn(ua.x, ua.y, jx - a.x, jy - a.y) / 2) },
    { x: jx, y: jy, bulge: Math.tan(turn(b.x - jx, b.y - jy, ub.x, ub.y) / 2) },
  ];
}

function unit({ dx, dy }: CurvePoint): { x: number; y: number } {
  const l = Math.hypot(dx, dy) || 1;
  return { x: dx / l, y: dy / l };
}

/** Signed angle from one direction to another, positive to the left. */
const turn = (ax: number, ay: number, bx: number, by: number): number =>
  Math.atan2(ax * by - ay * bx, ax * bx + ay * by);

function distanceToArcs([first, second]: readonly [ArcPoint, ArcPoint], end: CurvePoint, p: CurvePoint): number {
  return Math.min(distanceToArc(first, second, p), distanceToArc(second, end, p));
}

/** Distance from p to the circle (or line) of one arc; ends are not minded, the curve passes through them anyhow. */
function distanceToArc(from: ArcPoint, to: { readonly x: number; readonly y: number }, p: CurvePoint): number {
  const cx = to.x - from.x;
  const cy = to.y - from.y;
  const chord = Math.hypot(cx, cy);
  if (chord < 1e-12) return Math.hypot(p.x - from.x, p.y - from.y);
  if (Math.abs(from.bulge) < 1e-6) return Math.abs((p.x - from.x) * cy - (p.y - from.y) * cx) / chord;
  const height = (1 - from.bulge ** 2) / (4 * from.bulge);
  const x = (from.x + to.x) / 2 - cy * height;
  const y = (from.y + to.y) / 2 + cx * height;
  return Math.abs(Math.hypot(p.x - x, p.y - y) - Math.hypot(from.x - x, from.y - y));
}
