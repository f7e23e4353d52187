import type { Finish } from '../finish.ts';

export type FinishGroup = 'acrylic' | 'paper' | 'board' | 'wood' | 'stone' | 'cloth' | 'tile' | 'metal' | 'diffuser';

/** A surface by the name that one asks for it in a shop or a hire store. */
export interface LibraryFinish {
  readonly id: string;
  readonly name: string;
  readonly group: FinishGroup;
  readonly finish: Finish;
  /** 'tabled': the luminous reflectance follows a published table; 'invented': plausible, chosen by eye. */
  readonly origin: 'tabled' | 'invented';
  readonly source: string;
}

const INVENTED = 'invented for previews';

export const invented = (id: string, name: string, group: FinishGroup, finish: Finish): LibraryFinish => ({
  id,
  name,
  group,
  finish,
  origin: 'invented',
  source: INVENTED,
});

/**
 * Reflectances for diffuse light as lamp makers print them for indoor lighting: plaster 0.8, white tiles 0.7, maple and
 * birch 0.6, light oak 0.4, concrete 0.3, dark walnut 0.2. Colour within that is invented.
 */
export const INDOOR_TABLE = 'table of reflectances for indoor lighting in a lamp maker’s handbook; hue invented';

export const tabled = (
  id: string,
  name: string,
  group: FinishGroup,
  finish: Finish,
  source = INDOOR_TABLE,
): LibraryFinish => ({ id, name, group, finish, origin: 'tabled', source });
