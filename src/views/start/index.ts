export { StartSheet } from './StartSheet.tsx';
