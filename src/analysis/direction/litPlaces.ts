import { angleBetweenRad, type LightAt, lightAt } from '../light/lightVector.ts';
import type { FrameStudy } from '../study.ts';
import { surfaceWords } from '../words.ts';

/** A place at which the light is looked at. */
export interface LitPlace {
  readonly name: 'subject' | 'table' | 'background';
  readonly words: string;
  readonly light: LightAt;
}

/** The places that some light reaches: meter point, foot of the hero (the hero taken away), brightest of the background. */
export function litPlaces(study: FrameStudy): LitPlace[] {
  const { scene, set } = study.input;
  const hero = study.hero();
  const isHero = (surface: number): boolean => set.surfaces[surface].recordId === scene.subject.pieceId;
  const places: LitPlace[] = [
    { name: 'subject', words: 'subject', light: lightAt(study, scene.subject.meterPointM, null, isHero) },
  ];
  if (hero?.support) {
    const { normal, recordId } = hero.support;
    places.push({
      name: 'table',
      words: surfaceWords(scene, recordId),
      light: lightAt(study, hero.footM, normal, isHero),
    });
  }
  const background = study.backgroundPlace();
  if (background && background.recordId !== hero?.support?.recordId) {
    const { cells, recordId } = background;
    const middle = cells.reduce((best, cell) =>
      Math.hypot(cell.u - 0.5, cell.v - 0.4) < Math.hypot(best.u - 0.5, best.v - 0.4) ? cell : best,
    );
    places.push({
      name: 'background',
      words: surfaceWords(scene, recordId),
      light: lightAt(study, middle.pointM, middle.normal),
    });
  }
  return places.filter(({ light }) => light.lights.length > 0);
}

/** The two places whose strongest lights come from the most different ways; null for fewer than two. */
export function widestPair(places: readonly LitPlace[]) {
  let widest: { readonly a: LitPlace; readonly b: LitPlace; readonly angleRad: number } | null = null;
  for (let i = 0; i < places.length; i++) {
    for (let j = i + 1; j < places.length; j++) {
      const [a, b] = [places[i], places[j]];
      const angleRad = angleBetweenRad(a.light.lights[0].direction, b.light.lights[0].direction);
      if (!widest || angleRad > widest.angleRad) widest = { a, b, angleRad };
    }
  }
  return widest;
}
