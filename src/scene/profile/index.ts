export * from './join.ts';
export * from './measure.ts';
export * from './offset.ts';
export * from './piece.ts';
export * from './split.ts';
