import type { Vec3 } from '../../core/vec3.ts';

/** Numbers kept by place, so that those within one cell's size of a point are found without looking at all. */
export class PointGrid {
  readonly #cells = new Map<string, number[]>();
  readonly #cellM: number;

  constructor(cellM: number) {
    this.#cellM = cellM;
  }

  add(p: Vec3, value: number): void {
    const key = this.#key(p[0], p[1], p[2], 0, 0, 0);
    const cell = this.#cells.get(key);
    if (cell) cell.push(value);
    else this.#cells.set(key, [value]);
  }

  /** All kept within one cell's size, and some farther. */
  near(p: Vec3): number[] {
    const out: number[] = [];
    for (let i = -1; i <= 1; i++)
      for (let j = -1; j <= 1; j++)
        for (let k = -1; k <= 1; k++) out.push(...(this.#cells.get(this.#key(p[0], p[1], p[2], i, j, k)) ?? []));
    return out;
  }

  #key(x: number, y: number, z: number, i: number, j: number, k: number): string {
    const s = this.#cellM;
    return `${Math.floor(x / s) + i} ${Math.floor(y / s) + j} ${Math.floor(z / s) + k}`;
  }
}
