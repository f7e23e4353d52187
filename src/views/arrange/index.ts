export * from './arrangeCommands.ts';
export * from './measure.ts';
export * from './selection.ts';
export * from './tapePoints.ts';
export * from './tapeStore.ts';
