export { duplicateRecord } from './addRecord.ts';
export { ShelfDialog } from './ShelfDialog.tsx';
export { openShelf } from './shelfStore.ts';
