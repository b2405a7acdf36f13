import { findThing, type HoleView, type RunView, verdictSentences } from '@firnbook/campaign';
import type { Verdict } from '@firnbook/science/depth-scales';
import { useEffect, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { nameHere } from '../texts/names.ts';
import { sayHere } from '../texts/say-here.ts';
import { lastRun } from './hole.ts';
import { MethodLink } from './method-link.tsx';

/**
 * What the bench is told after the newest run: what closes, what to measure again now, the longest next run, the check
 * that would help most. Readings that don't fit stand below as questions.
 */
export function BenchVerdict(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly run: RunView;
}) {
  const { book, hole, run } = props;
  const { judge } = book;
  const solved = book.solved[hole.id];
  const [told, setTold] = useState<Verdict | null>(null);
  const isNewest = lastRun(hole)?.id === run.id;
  // Depths from before this run say nothing about it, and the next ones are on their way.
  const isSolved = solved?.readings.runs.at(-1)?.id === run.id;
  useEffect(() => {
    if (!isNewest || !isSolved || solved === undefined) return;
    let isWanted = true;
    void judge(hole.id).then((verdict) => {
      if (isWanted) setTold(verdict);
    });
    return () => {
      isWanted = false;
    };
  }, [judge, hole.id, solved, isNewest, isSolved]);
  const { campaign } = book;
  if (!isNewest || campaign === null || told?.run !== run.id) return null;
  const nameOf = (id: string): string => {
    const thing = findThing(campaign, id)?.thing;
    return thing ? nameHere(thing) : '?';
  };
  const sentences = verdictSentences({ ...told, lookAgain: [] }, nameOf);
  // Whether it closes is told by its core, and that is not on the bench yet.
  const isOpen = !run.nothingRecovered && run.pieces.length === 0;
  return (
    <span className="say verdict" role="status">
      {sentences.slice(isOpen ? 1 : 0).map((sentence) => (
        <span key={sentence.key}>{sayHere(sentence)} </span>
      ))}
      <MethodLink page="verdict" />
    </span>
  );
}
