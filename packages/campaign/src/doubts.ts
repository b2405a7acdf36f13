import { spanDoubts } from './care/doubts.ts';
import type { Doubt } from './command.ts';
import { featureDoubts, outgrownDoubts, scratchDoubts, trayDoubts } from './core/bench-doubts.ts';
import { pieceDoubts } from './core/doubts.ts';
import type { Doubted } from './doubted.ts';
import { barrelDoubts, cableDoubts, inclinationDoubts, zeroCheckDoubts } from './drilling/check-doubts.ts';
import { runDoubts, soundingDoubts } from './drilling/doubts.ts';
import { setupDoubts } from './setup/doubts.ts';
import { unusual } from './unusual.ts';

/** Surprises worth a question, of every part of the work. They never keep an entry from being taken. */
export function doubtsAbout(doubted: Doubted): readonly Doubt[] {
  const all = [
    ...unusual(doubted),
    ...setupDoubts(doubted),
    ...runDoubts(doubted),
    ...barrelDoubts(doubted),
    ...pieceDoubts(doubted),
    ...soundingDoubts(doubted),
    ...scratchDoubts(doubted),
    ...trayDoubts(doubted),
    ...outgrownDoubts(doubted),
    ...featureDoubts(doubted),
    ...cableDoubts(doubted),
    ...zeroCheckDoubts(doubted),
    ...inclinationDoubts(doubted),
    ...spanDoubts(doubted),
  ];
  // One question per field is enough: the first has looked closest at the reading itself.
  return all.filter((doubt, index) => all.findIndex((one) => one.field === doubt.field) === index);
}
