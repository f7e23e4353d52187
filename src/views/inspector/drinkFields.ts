import { applyMergePatch, createMergePatch } from '../../document/mergePatch.ts';
import { isEqualData } from '../../document/plainData.ts';
import { DRINKS } from '../../materials/drinks.ts';
import { drinkVolumeMl } from '../../scene/drinkVolume.ts';
import { mediumOfLibrary } from '../../scene/pieceDefaults.ts';
import { type Drink, type DrinkLayer, drinkLayerSchema, drinkSchema, type Piece } from '../../scene/records.ts';
import { choice, type Field, type FieldGroup, type Patch } from './fields.ts';
import { type PartContext, schemaFields } from './schemaFields.ts';
import { schemaGroups } from './schemaGroups.ts';

const OWN = 'its own';
const NONE = 'none';
const MOST_LAYERS = 2;
const LAYER_WORDS = ['Layer on it', 'Second layer'] as const;
const FIRST_SHARE = 0.25;
const FIRST_FILL = 0.75;
const HALF_GLASS_ML = 150;

/** What is in the glass: from the shelf or figure by figure, how much of it, what lies on it and rises in it. */
export function drinkGroups(drink: Drink, glass: Piece, context: PartContext): FieldGroup[] {
  const { prefix = '', patch } = context;
  const [own, ...parts] = schemaGroups(drinkSchema, drink, { ...context, title: 'Drink', skip: ['layers'] });
  const layers = drink.layers ?? [];
  const head = [
    shelfField(`${prefix}shelf`, drink, patch),
    fillField(drink, glass, context),
    ...(own?.fields.filter(({ key }) => !FILL_SWITCHES.includes(key.slice(prefix.length))) ?? []),
  ];
  const layerFields = LAYER_WORDS.slice(0, Math.min(MOST_LAYERS, layers.length + 1)).map((word, i) =>
    layerField(word, i, layers, context),
  );
  return [
    { title: 'Drink', fields: [...head, ...layerFields] },
    ...layers.map((layer, i) => ({
      title: LAYER_WORDS[i] ?? 'Layer',
      fields: schemaFields(drinkLayerSchema, layer, {
        ...context,
        prefix: `${prefix}layer${i}-`,
        patch: (part) => patch({ layers: withPatched(layers, i, part) }),
      }),
    })),
    ...parts,
  ];
}

/** The two ways to say how much are one choice, so their switches are left out. */
const FILL_SWITCHES: readonly string[] = ['fillFraction-set', 'fillMl-set'];

const MEDIUM_KEYS = ['index', 'absorptionPerM', 'scatteringPerM', 'anisotropy'] as const;
const mediumOf = (of: object): object =>
  Object.fromEntries(Object.entries(of).filter(([key]) => MEDIUM_KEYS.some((known) => known === key)));

/** Which drink of the library has just these figures. */
const findShelved = (medium: Drink | DrinkLayer): string | undefined =>
  DRINKS.find(({ id }) => {
    const shelved = mediumOfLibrary(id);
    return shelved !== undefined && isEqualData(mediumOf(shelved), mediumOf(medium));
  })?.id;

const shelfOptions = (first?: string): Record<string, string> =>
  Object.fromEntries([
    ...(first === undefined ? [] : [[first, first]]),
    ...DRINKS.map(({ id, name, origin }) => [origin === 'measured' ? `${name}, measured` : name, id]),
  ]);

function shelfField(key: string, drink: Drink, patch: PartContext['patch']): Field {
  const shelved =
    drink.libraryId !== undefined && isShelved(drink, drink.libraryId) ? drink.libraryId : findShelved(drink);
  return choice(key, 'From the shelf', shelved ?? OWN, shelfOptions(shelved ? undefined : OWN), (id) => {
    const medium = mediumOfLibrary(id);
    if (!medium || id === shelved) return patch({});
    const bare = Object.entries(drink).filter(([name]) => !MEDIUM_KEYS.some((known) => known === name));
    return patch(createMergePatch(drink, { ...Object.fromEntries(bare), ...medium }));
  });
}

const isShelved = (drink: Drink, id: string): boolean => {
  const medium = mediumOfLibrary(id);
  return medium !== undefined && isEqualData(mediumOf(medium), mediumOf(drink));
};

/** Filled to a height, or poured by the millilitre: the level stays where it is when the way of saying it changes. */
function fillField(drink: Drink, glass: Piece, { prefix = '', patch }: PartContext): Field {
  const now = drink.fillMl === undefined ? 'height' : 'ml';
  return choice(`${prefix}fillBy`, 'Filled by', now, { 'height in the glass': 'height', millilitres: 'ml' }, (by) => {
    if (by === now) return patch({});
    if (by === 'height') return patch({ fillMl: null, fillFraction: FIRST_FILL });
    const poured = Math.round(drinkVolumeMl(glass));
    return patch({ fillFraction: null, fillMl: poured > 0 ? poured : HALF_GLASS_ML });
  });
}

function layerField(
  word: string,
  i: number,
  layers: readonly DrinkLayer[],
  { prefix = '', patch }: PartContext,
): Field {
  const layer = layers[i];
  const shelved = layer ? (layer.libraryId ?? findShelved(layer) ?? OWN) : NONE;
  const options = { [NONE]: NONE, ...(shelved === OWN ? { [OWN]: OWN } : {}), ...shelfOptions() };
  return choice(`${prefix}layer${i}`, word, shelved, options, (id) => {
    const put = (next: readonly DrinkLayer[]): Patch => patch({ layers: next.length > 0 ? next : null });
    if (id === NONE) return put(layers.filter((_, at) => at !== i));
    const medium = mediumOfLibrary(id);
    if (!medium || id === shelved) return patch({});
    const next: DrinkLayer = { ...medium, share: layer?.share ?? FIRST_SHARE };
    return put(layer ? layers.map((old, at) => (at === i ? next : old)) : [...layers, next]);
  });
}

/** A list with one entry patched; lists go into a record whole. */
export const withPatched = (list: readonly object[], i: number, part: Patch): unknown[] =>
  list.map((entry, at) => (at === i ? applyMergePatch({ ...entry }, part) : entry));
