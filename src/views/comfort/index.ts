export { ComfortMenu } from './ComfortMenu.tsx';
export { type Comfort, comfortStore, keepComfort, useComfort } from './comfortStore.ts';
export { cmFromInches, formatLength, inchesFromCm, inLengths } from './lengthText.ts';
