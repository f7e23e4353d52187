/**
 * Connected parts of a mask on a grid, 8 neighbours, largest first (ties: first cell first).
 *
 * @param mask row-major, not 0 where set
 * @returns cells of each part, ascending
 */
export function floodRegions(mask: Uint8Array, columns: number, rows: number): Int32Array[] {
  const seen = new Uint8Array(mask.length);
  const queue = new Int32Array(mask.length);
  const regions: Int32Array[] = [];
  for (let start = 0; start < mask.length; start++) {
    if (!mask[start] || seen[start]) continue;
    let head = 0;
    let tail = 0;
    queue[tail++] = start;
    seen[start] = 1;
    while (head < tail) {
      const cell = queue[head++];
      forNeighbours(cell, columns, rows, (next) => {
        if (!mask[next] || seen[next]) return;
        seen[next] = 1;
        queue[tail++] = next;
      });
    }
    regions.push(queue.slice(0, tail).sort());
  }
  return regions.sort((a, b) => b.length - a.length || a[0] - b[0]);
}

/** The up to 8 cells round a cell. */
export function forNeighbours(cell: number, columns: number, rows: number, visit: (neighbour: number) => void): void {
  const row = Math.floor(cell / columns);
  const column = cell - row * columns;
  for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++)
    for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c++)
      if (r !== row || c !== column) visit(r * columns + c);
}

/** Cells within `steps` of a region and not in it. */
export function ringAround(region: Int32Array, columns: number, rows: number, steps: number): number[] {
  const taken = new Set<number>(region);
  const ring: number[] = [];
  let edge: readonly number[] = Array.from(region);
  for (let step = 0; step < steps; step++) {
    const next: number[] = [];
    for (const cell of edge)
      forNeighbours(cell, columns, rows, (neighbour) => {
        if (taken.has(neighbour)) return;
        taken.add(neighbour);
        next.push(neighbour);
      });
    ring.push(...next);
    edge = next;
  }
  return ring;
}
