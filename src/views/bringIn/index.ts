export { bringInFile, canBringIn, pickToBringIn } from './bringInFile.ts';
