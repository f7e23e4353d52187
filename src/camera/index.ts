export * from './exposure.ts';
export * from './formats.ts';
export * from './lens.ts';
export * from './projection.ts';
export * from './records.ts';
export * from './stops.ts';
export * from './view.ts';
