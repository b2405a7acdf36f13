export { CoreAxis } from './core-axis.tsx';
