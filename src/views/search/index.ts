export { SearchDialog } from './SearchDialog.tsx';
export * from './searchStore.ts';
