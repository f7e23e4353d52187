export { Inspector } from './Inspector.tsx';
