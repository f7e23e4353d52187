export * from './choices.ts';
export { emptyTable, hasStandIn, STAND_IN_ID } from './emptyTable.ts';
export { setupFromBrief } from './setupFromBrief.ts';
