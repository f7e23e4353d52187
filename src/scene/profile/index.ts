export * from './crossing.ts';
export * from './drawn.ts';
export * from './join.ts';
export * from './measure.ts';
export * from './offset.ts';
export * from './piece.ts';
export * from './split.ts';
