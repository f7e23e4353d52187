import { DRINKS, type DrinkOptics } from '../../materials/drinks.ts';
import {
  defaultBubbles,
  defaultFoam,
  defaultGarnish,
  defaultGlassProfile,
  defaultIceOf,
  drinkOfLibrary,
  GARNISH_KINDS,
  GLASS_NAMES,
  GLASS_SHAPES,
  type GlassShape,
} from '../glassDefaults.ts';
import { defaultGlass } from '../pieceDefaults.ts';
import {
  type Drink,
  type Garnish,
  type GarnishKind,
  ICE_FORMS,
  type Ice,
  type IceForm,
  type Piece,
} from '../records.ts';
import { type ShelfItem, shelve } from './shelfItem.ts';

const GLASS_LINES: Partial<Record<GlassShape, string>> = {
  highball: 'Tall straight glass for long drinks.',
  tumbler: 'Short wide glass for spirits over ice.',
  doubleTumbler: 'Wider and heavier in the foot than a tumbler.',
  shot: 'Small glass with a thick foot.',
  coupe: 'Low round bowl on a stem.',
  conicalStemmed: 'Straight cone on a stem.',
  flute: 'Tall narrow oval on a stem, for bubbles.',
  wine: 'Round bowl on a stem that closes in to the rim.',
  copa: 'Large round bowl on a stem, for ice and garnish.',
  mug: 'Thick-walled, with a handle.',
  carafe: 'Round body and a narrow neck, for pouring.',
  bottle: 'Round bottle with a straight neck.',
  ownProfile: 'Turned from a profile that you draw.',
};

/** Every shape of glass, empty. */
const GLASSES: readonly ShelfItem[] = GLASS_SHAPES.map((shape) =>
  shelve('glasses', `glass-${shape}`, GLASS_NAMES[shape], GLASS_LINES[shape] ?? 'Empty glass of generic size.', (id) =>
    defaultGlass(shape, id),
  ),
);

interface Serving {
  readonly shape: GlassShape;
  readonly ice?: IceForm;
  readonly more?: Partial<Pick<Drink, 'fillFraction' | 'foam' | 'bubbles'>>;
  readonly garnish?: GarnishKind;
}

/** How a drink of the library is served where that is not a plain highball. */
const SERVINGS: Readonly<Record<string, Serving>> = {
  espresso: {
    shape: 'shot',
    more: { foam: { ...defaultFoam(), heightM: 0.004, domeM: 0, tintRgb: [0.62, 0.4, 0.2] } },
  },
  cola: { shape: 'highball', ice: 'cube', more: { bubbles: defaultBubbles() } },
  'lemon-soda': { shape: 'highball', ice: 'cube', more: { bubbles: defaultBubbles() } },
  'white-wine': { shape: 'wine', more: { fillFraction: 0.4 } },
  'rose-wine': { shape: 'wine', more: { fillFraction: 0.4 } },
  'red-wine': { shape: 'wine', more: { fillFraction: 0.4 } },
  lager: { shape: 'highball', more: { fillFraction: 0.78, foam: defaultFoam(), bubbles: defaultBubbles() } },
  tonic: { shape: 'highball', ice: 'cube', more: { bubbles: defaultBubbles() }, garnish: 'citrusWheel' },
  'iced-tea': { shape: 'highball', ice: 'cube' },
  hibiscus: { shape: 'copa', ice: 'cube', more: { fillFraction: 0.6 } },
  'cloudy-lemonade': { shape: 'highball', ice: 'cube' },
  'milk-punch': { shape: 'coupe', more: { fillFraction: 0.66 } },
  'herb-cordial': { shape: 'coupe', more: { fillFraction: 0.7 } },
  'clear-spirit': { shape: 'tumbler', ice: 'block', more: { fillFraction: 0.45 } },
};

const LONG_DRINK: Serving = { shape: 'highball' };

function filled(id: string, drink: Drink, { shape, ice, more, garnish }: Serving): Piece {
  const glass = defaultGlass(shape, id);
  if (glass.kind !== 'glass') return glass;
  return {
    ...glass,
    drink: { ...drink, ...more },
    ...(ice ? { ice: iceFor(shape, ice) } : {}),
    ...(garnish ? { garnish: [defaultGarnish(garnish)] } : {}),
  };
}

const MOST_PIECES = 76;

/** Ice of a form, cut to what goes into a glass of the shape. */
function iceFor(shape: GlassShape, form: IceForm): Ice {
  const ice = defaultIceOf(form);
  const profile = defaultGlassProfile(shape);
  if (!('rimDiameterM' in profile)) return ice;
  const roomM = profile.rimDiameterM * 0.62;
  const edgeM = Math.min(ice.edgeM, Number(roomM.toFixed(4)));
  // A few less than the usual heap, so that all of them fit a highball.
  return { ...ice, edgeM, count: Math.min(ice.count, MOST_PIECES) };
}

function drinkItem(optics: DrinkOptics): ShelfItem[] {
  const drink = drinkOfLibrary(optics.id);
  if (!drink) return [];
  const serving = SERVINGS[optics.id] ?? LONG_DRINK;
  const glass = GLASS_NAMES[serving.shape].toLowerCase();
  const look = optics.origin === 'measured' ? 'Colour as measured' : 'Colour by eye';
  return [
    shelve(
      'drinks',
      `drink-${optics.id}`,
      optics.name,
      `In a ${glass}${serving.ice ? ' with ice' : ''}. ${look}.`,
      (id) => filled(id, drink, serving),
    ),
  ];
}

const ICE_LINES: Readonly<Record<IceForm, readonly [name: string, line: string, shape: GlassShape]>> = {
  cube: ['Water with ice cubes', 'Clear cubes with rounded edges in a highball.', 'highball'],
  block: ['Water with a block of ice', 'One large clear block in a double tumbler.', 'doubleTumbler'],
  sphere: ['Water with an ice ball', 'One clear ball in a double tumbler.', 'doubleTumbler'],
  spear: ['Water with an ice spear', 'One long clear bar in a highball.', 'highball'],
  cracked: ['Water with cracked ice', 'Broken pieces in a double tumbler.', 'doubleTumbler'],
  crushed: ['Water with crushed ice', 'Fine broken ice in a highball.', 'highball'],
};

const ICE: readonly ShelfItem[] = ICE_FORMS.map((form) => {
  const [name, line, shape] = ICE_LINES[form];
  const water = drinkOfLibrary('water');
  return shelve('ice', `ice-${form}`, name, line, (id) =>
    water ? filled(id, water, { shape, ice: form }) : defaultGlass(shape, id),
  );
});

const GARNISH_WORDS: Readonly<Record<GarnishKind, readonly [name: string, line: string]>> = {
  citrusWheel: ['Citrus wheel', 'Round slice, lying on the table.'],
  citrusWedge: ['Citrus wedge', 'Cut segment, lying on the table.'],
  twist: ['Twist of peel', 'Curl of peel, lying on the table.'],
  olives: ['Olives on a pick', 'Lying on the table.'],
  mint: ['Mint sprig', 'Pairs of leaves on a stalk.'],
  berries: ['Berries', 'A few, lying on the table.'],
  straw: ['Straw', 'Paper, lying on the table.'],
  stirrer: ['Stirrer', 'Glass rod, lying on the table.'],
};

const garnishPiece = (id: string, name: string, item: Garnish): Piece => ({
  kind: 'garnish',
  id,
  name,
  positionM: [0.12, 0, 0.08],
  headingDeg: 0,
  item,
});

const GARNISH: readonly ShelfItem[] = GARNISH_KINDS.map((kind) => {
  const [name, line] = GARNISH_WORDS[kind];
  return shelve('garnish', `garnish-${kind}`, name, line, (id) => garnishPiece(id, name, defaultGarnish(kind)));
});

/** Glasses, drinks in glasses, ice in glasses, and garnish by itself. */
export const GLASS_SHELF: readonly ShelfItem[] = [...GLASSES, ...DRINKS.flatMap(drinkItem), ...ICE, ...GARNISH];
