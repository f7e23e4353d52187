export { ShelfDialog } from './ShelfDialog.tsx';
export { openShelf } from './shelfStore.ts';
