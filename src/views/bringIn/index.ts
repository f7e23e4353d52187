export { bringInFile, canBringIn, pickToBringIn } from './bringInFile.ts';
export { pickPictureFor } from './layPicture.ts';
