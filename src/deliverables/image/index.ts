export * from './exr.ts';
export type { ImageFileError } from './imageFileError.ts';
export * from './linearImage.ts';
export * from './pfm.ts';
export * from './png.ts';
export * from './readExr.ts';
export * from './writeExr.ts';
