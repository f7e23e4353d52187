import type { Vec3 } from '../../core/vec3.ts';
import type { Finish } from '../../materials/finish.ts';
import { finishPattern, SCRATCH_ROUGHNESS } from '../../materials/finishPattern.ts';
import { diffuseReflectanceOutside } from '../../materials/fresnel.ts';
import type { PatternNumbers } from '../../materials/pattern.ts';
import { type Picture, pictureHead, pictureReflectances } from '../../materials/picture.ts';
import { ALBEDO_TABLE_SIZE, FINISH, FinishKind } from '../layout/schema.ts';
import { coatAlbedoTable } from './coatAlbedo.ts';

const NO_PATTERN = [-1, -1, -1, -1, -1, -1];

/** Collects finishes as FINISH records, equal ones once, with the tables that rough coats need. */
export class FinishTable {
  readonly words: number[] = [];
  readonly profileWords: number[] = [];
  readonly #indices = new Map<string, number>();

  constructor(private readonly workingFromRecord: (rgb: Vec3) => Vec3) {}

  indexOf(finish: Finish): number {
    const key = JSON.stringify(finish);
    let index = this.#indices.get(key);
    if (index === undefined) {
      index = this.#indices.size;
      this.#indices.set(key, index);
      const at = this.words.length;
      this.words.push(...this.#record(finish), ...NO_PATTERN);
      this.#addPatterns(finish, at);
    }
    return index;
  }

  /** Patterns of the finish whose record starts at `at`; dust and scratches are finishes of their own that show in places. */
  #addPatterns(finish: Finish, at: number): void {
    const { base, dust, scratches } = finishPattern(finish);
    const put = (
      name: 'picture' | 'pattern' | 'dust' | 'dustFinish' | 'scratches' | 'scratchFinish',
      value: number,
    ): void => {
      this.words[at + FINISH.offset[name]] = value;
    };
    if (finish.type === 'matte' && finish.picture) put('picture', this.#pictureWords(finish.picture));
    if (base) put('pattern', this.#patternWords(base));
    if (dust) {
      put('dust', this.#patternWords(dust));
      put('dustFinish', this.indexOf({ type: 'matte', reflectanceRgb: dust.secondRgb }));
    }
    if (scratches && finish.type === 'gloss') {
      put('scratches', this.#patternWords(scratches));
      const { dust: _dust, scratches: _scratches, ...plain } = finish;
      put('scratchFinish', this.indexOf({ ...plain, roughness: Math.max(finish.roughness, SCRATCH_ROUGHNESS) }));
    }
  }

  #patternWords(pattern: PatternNumbers): number {
    const at = this.profileWords.length;
    this.profileWords.push(pattern.kind, ...pattern.params, ...this.workingFromRecord(pattern.secondRgb));
    return at;
  }

  /** -1 for a print whose colours do not fit its size: the reflectance then shows. */
  #pictureWords(picture: Picture): number {
    const colours = pictureReflectances(picture);
    if (!colours) return -1;
    const at = this.profileWords.length;
    for (const word of pictureHead(picture)) this.profileWords.push(word);
    for (let i = 0; i < colours.length; i += 3) {
      const [r, g, b] = this.workingFromRecord([colours[i], colours[i + 1], colours[i + 2]]);
      this.profileWords.push(r, g, b);
    }
    return at;
  }

  #record(finish: Finish): number[] {
    const rgb = (c: Vec3): Vec3 => this.workingFromRecord(c);
    switch (finish.type) {
      case 'matte':
        return [FinishKind.matte, ...rgb(finish.reflectanceRgb), 0, 0, 0, 1, 0, 0, -1];
      case 'gloss': {
        const n = finish.coatIndex;
        let outside = diffuseReflectanceOutside(n);
        let table = -1;
        if (finish.roughness > 0) {
          table = this.profileWords.length;
          let mean = 0;
          const albedo = coatAlbedoTable(finish.roughness, n, ALBEDO_TABLE_SIZE);
          // Cosine-weighted mean of the very interpolation that the tracer uses, so that no light is made or lost.
          for (let i = 0; i + 1 < ALBEDO_TABLE_SIZE; i++) {
            const h = 1 / (ALBEDO_TABLE_SIZE - 1);
            const [c0, c1] = [i * h, (i + 1) * h];
            const [e0, e1] = [albedo[i], albedo[i + 1]];
            mean += (h / 6) * (e0 * c0 + (e0 + e1) * (c0 + c1) + e1 * c1) * 2;
          }
          this.profileWords.push(...albedo);
          outside = mean;
        }
        const inside = 1 - (1 - outside) / (n * n);
        return [FinishKind.gloss, ...rgb(finish.reflectanceRgb), 0, 0, 0, n, finish.roughness, inside, table];
      }
      case 'metal':
        return [FinishKind.metal, ...rgb(finish.reflectanceRgb), 0, 0, 0, 1, Math.max(finish.roughness, 1e-3), 0, -1];
      case 'mirror':
        return [FinishKind.mirror, ...rgb(finish.reflectanceRgb), 0, 0, 0, 1, 0, 0, -1];
      case 'translucent':
        return [FinishKind.translucent, ...rgb(finish.reflectanceRgb), ...rgb(finish.transmittanceRgb), 1, 0, 0, -1];
      case 'clear':
        return finish.roughness > 0
          ? [FinishKind.frosted, 1, 1, 1, 0, 0, 0, 1, Math.max(finish.roughness, 2e-3), 0, -1]
          : [FinishKind.clear, 1, 1, 1, 0, 0, 0, 1, 0, 0, -1];
      case 'black':
        return [FinishKind.black, 0, 0, 0, 0, 0, 0, 1, 0, 0, -1];
    }
  }
}
