export * from './derived.ts';
export * from './documentStore.ts';
export * from './resultsStore.ts';
export * from './sessionStore.ts';
