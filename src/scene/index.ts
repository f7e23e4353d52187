export * from './bounds.ts';
export { buildSet } from './buildSet.ts';
export * from './clearances.ts';
export * from './matteBox.ts';
export * from './pieceDefaults.ts';
export * from './records.ts';
export * from './setModel.ts';
export * from './turntable.ts';
