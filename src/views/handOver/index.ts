export { HandOverMenu } from './HandOverMenu.tsx';
