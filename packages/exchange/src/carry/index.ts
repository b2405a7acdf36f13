export {
  type CarryPreview,
  type CarryTaken,
  type CarryTarget,
  type Passed,
  previewCarry,
  takeCarry,
} from './bring.ts';
export { carryFileName } from './file-name.ts';
export type { CarryFirst, CarryPeer } from './format.ts';
export { CARRY_NOTE, readCarryPeers, rememberPeer } from './peers.ts';
export { CarryFileError, readCarryLines, type Torn } from './read.ts';
export { type CarryProblem, carryProblemWords, carryWords } from './words.ts';
export { type AttachmentsHere, type CarrySource, carryLines, lacking } from './write.ts';
