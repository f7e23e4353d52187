import type { FrameSet } from '../../src/deliverables/frameSet.ts';
import { writePng } from '../../src/deliverables/image/png.ts';
import { csvFromTable } from '../../src/deliverables/sheets/csv.ts';
import type { ScenePictures } from '../../src/deliverables/traced/scenePictures.ts';
import { angleTable, planTurnFilm, type TurnFilmOptions, traceTurn } from '../../src/deliverables/video/turnFilm.ts';
import type { PlaceInFrame } from '../../src/deliverables/video/turnMarks.ts';
import { InputError } from './inputError.ts';

/**
 * A turn as numbered PNG files with the list of their angles: what any encoder takes. `write` gets paths below the folder
 * of the turn.
 */
export async function writeTurnFiles(
  frameSet: FrameSet,
  pictures: ScenePictures,
  options: TurnFilmOptions,
  write: (path: string, content: string | Uint8Array) => void,
): Promise<void> {
  const film = planTurnFilm(frameSet, options);
  if (!film.ok) throw new InputError(`frame ${frameSet.frame.name}: ${film.error}`);
  const { plan } = film.value;
  const digits = Math.max(4, String(plan.frames.length).length);
  const highlights: (PlaceInFrame | null)[] = [];
  await traceTurn(frameSet, film.value, pictures, options, ({ index, image, highlight }) => {
    highlights.push(highlight);
    write(`${String(index + 1).padStart(digits, '0')}.png`, writePng(image));
  });
  write('angles.csv', csvFromTable(angleTable(plan, highlights)));
}
