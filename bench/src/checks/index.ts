export { judge } from './judge.ts';
export { ownSheet } from './sheet.ts';
