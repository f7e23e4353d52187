export * from './derived.ts';
export * from './documentStore.ts';
export * from './notices.ts';
export * from './orderFindings.ts';
export * from './resultsStore.ts';
export * from './services.ts';
export * from './sessionStore.ts';
export * from './updateRecord.ts';
