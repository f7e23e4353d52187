export * from './adapt.ts';
export * from './difference.ts';
export * from './palette.ts';
export * from './source.ts';
export * from './spaces.ts';
