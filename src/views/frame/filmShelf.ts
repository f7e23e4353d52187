import type { Film } from '../../transport/contracts.ts';

export interface KeptFilm {
  readonly key: string;
  /** Equal for films that differ in the stop alone. */
  readonly standInKey: string;
  readonly film: Film;
  readonly samples: number;
  readonly grain: number | null;
  readonly finished: boolean;
}

/** Films are large (6 MB a layer at 960 x 540), so only the last few are kept. */
const KEPT_FILMS = 4;

/** The last few films, so that undo, redo and the other frame bring their picture back at once. */
export function createFilmShelf() {
  let films: readonly KeptFilm[] = [];
  return {
    put(film: KeptFilm): void {
      films = [film, ...films.filter((kept) => kept.key !== film.key)].slice(0, KEPT_FILMS);
    },
    find: (key: string): KeptFilm | undefined => films.find((kept) => kept.key === key),
    findStandIn: (standInKey: string): KeptFilm | undefined => films.find((kept) => kept.standInKey === standInKey),
  };
}
