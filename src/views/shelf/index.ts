export { openShelf } from './shelfStore.ts';
