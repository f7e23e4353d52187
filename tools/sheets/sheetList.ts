import {
  BACKDROP_ITEMS,
  CLEAR_ITEMS,
  CUTTER_ITEMS,
  DRESSING_ITEMS,
  PAPER_ITEMS,
  SURFACE_ITEMS,
} from './dressingItems.ts';
import {
  COLOUR_ROW,
  DRINK_ITEMS,
  FINISHED_GLASS_ITEMS,
  GARNISH_ITEMS,
  GLASS_ITEMS,
  ICE_ITEMS,
  WET_ITEMS,
} from './glassItems.ts';
import type { SheetItem } from './itemSetup.ts';

export interface Sheet {
  /** Name of its file. */
  readonly name: string;
  readonly columns: number;
  readonly widthPx: number;
  /** Width of a picture over its height. */
  readonly aspect: number;
  /** Camera paths of each pixel on average. */
  readonly samples: number;
  readonly items: readonly SheetItem[];
}

const UPRIGHT = 0.75;

/** All sheets, in the order of docs/pieces.md. */
export const SHEETS: readonly Sheet[] = [
  { name: 'colour-row', columns: 3, widthPx: 180, aspect: UPRIGHT, samples: 12, items: COLOUR_ROW },
  { name: 'wet', columns: 8, widthPx: 112, aspect: UPRIGHT, samples: 10, items: WET_ITEMS },
  { name: 'garnish', columns: 7, widthPx: 104, aspect: UPRIGHT, samples: 12, items: GARNISH_ITEMS },
  { name: 'glassware', columns: 7, widthPx: 104, aspect: UPRIGHT, samples: 8, items: GLASS_ITEMS },
  { name: 'glass-finishes', columns: 6, widthPx: 104, aspect: UPRIGHT, samples: 8, items: FINISHED_GLASS_ITEMS },
  { name: 'drinks', columns: 7, widthPx: 104, aspect: UPRIGHT, samples: 10, items: DRINK_ITEMS },
  { name: 'ice', columns: 6, widthPx: 104, aspect: UPRIGHT, samples: 8, items: ICE_ITEMS },
  { name: 'dressing', columns: 6, widthPx: 116, aspect: 1, samples: 8, items: DRESSING_ITEMS },
  { name: 'cutters', columns: 5, widthPx: 116, aspect: 1, samples: 8, items: CUTTER_ITEMS },
  { name: 'backdrops', columns: 5, widthPx: 130, aspect: 1.2, samples: 8, items: BACKDROP_ITEMS },
  { name: 'clear-solids', columns: 7, widthPx: 104, aspect: 1.2, samples: 10, items: CLEAR_ITEMS },
  { name: 'surfaces', columns: 7, widthPx: 100, aspect: 1.25, samples: 8, items: SURFACE_ITEMS },
  { name: 'papers', columns: 7, widthPx: 100, aspect: 1.25, samples: 6, items: PAPER_ITEMS },
];
