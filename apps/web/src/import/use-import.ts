import type { ImportMapping } from '@firnbook/exchange/sheets';
import type { Draft } from '@firnbook/journal';
import { useEffect, useRef, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { observedNow } from '../device/observed.ts';
import { refusalLines } from '../screens/refusal-lines.ts';
import { t } from '../texts/t.ts';
import { type Reading, ReadingTrouble, startReading } from './reading.ts';
import type { Look, ShownTable, Trouble, Wish } from './task.ts';

export type Stage =
  | { readonly is: 'pick'; readonly wrong: readonly string[] }
  | { readonly is: 'reading'; readonly file: string }
  | ({ readonly is: 'look' } & Looked)
  | {
      readonly is: 'writing';
      readonly file: string;
      readonly done: number;
      readonly total: number;
      /** Why it stands still; a press goes on. */
      readonly wrong: readonly string[];
    }
  | { readonly is: 'done'; readonly file: string; readonly done: number; readonly total: number };

interface Looked {
  readonly file: string;
  readonly tables: readonly ShownTable[];
  /** As the person last said it; what is shown follows. */
  readonly mapping: ImportMapping;
  readonly look: Look;
  readonly isBusy: boolean;
  readonly wrong: readonly string[];
}

/** Entries that are made durable together: one flush each is slow, all in one cannot be stopped. */
const together = 25;

interface Options {
  readonly hole: string;
  readonly correct: string | null;
}

/** A file on its way into the book: picked, read in its own thread, looked at, confirmed, written. */
export function useImport(book: BookHandle, firstHole: string) {
  const [stage, setStage] = useState<Stage>({ is: 'pick', wrong: [] });
  const [options, setOptions] = useState<Options>({ hole: firstHole, correct: null });
  const reading = useRef<Reading | null>(null);
  const file = useRef<File | null>(null);
  const drafts = useRef<readonly Draft[]>([]);
  const isStopped = useRef(false);
  /** Answers to older questions are not shown. */
  const turn = useRef(0);
  useEffect(() => () => reading.current?.stop(), []);

  const stopReading = () => {
    turn.current += 1;
    reading.current?.stop();
    reading.current = null;
  };

  const fail = (error: unknown) => {
    stopReading();
    setStage({ is: 'pick', wrong: troubleLines(error) });
  };

  const wish = async (mapping: ImportMapping | null, { hole, correct }: Options): Promise<Wish> => ({
    mapping,
    entries: await book.entries(),
    hole,
    by: book.me ?? '',
    correct,
  });

  const pick = async (picked: File) => {
    stopReading();
    const own = turn.current;
    file.current = picked;
    const next = { ...options, correct: null };
    setOptions(next);
    setStage({ is: 'reading', file: picked.name });
    try {
      reading.current = startReading();
      const tables = await reading.current.ask({ do: 'read', file: picked });
      const look = await reading.current.ask({ do: 'look', ...(await wish(null, next)) });
      if (turn.current !== own) return;
      setStage({
        is: 'look',
        file: picked.name,
        tables,
        mapping: look.mapping,
        look,
        isBusy: false,
        wrong: [],
      });
    } catch (error) {
      if (turn.current === own) fail(error);
    }
  };

  const lookAgain = async (
    mapping: ImportMapping,
    next: Options = options,
    take: Wish['take'] | undefined = undefined,
  ) => {
    if (reading.current === null) return;
    turn.current += 1;
    const own = turn.current;
    setOptions(next);
    setStage((old) => (old.is === 'look' ? { ...old, mapping, isBusy: true, wrong: [] } : old));
    try {
      const asked = { ...(await wish(mapping, next)), ...(take !== undefined && { take }) };
      const look = await reading.current.ask({ do: 'look', ...asked });
      if (turn.current !== own) return;
      setStage((old) => (old.is === 'look' ? { ...old, mapping: look.mapping, look, isBusy: false } : old));
    } catch (error) {
      if (turn.current === own) fail(error);
    }
  };

  const writeFrom = async (name: string, from: number) => {
    const all = drafts.current;
    const total = all.length;
    isStopped.current = false;
    for (let done = from; done < total; done += together) {
      setStage({ is: 'writing', file: name, done, total, wrong: [] });
      if (isStopped.current) {
        setStage({ is: 'done', file: name, done, total });
        return;
      }
      try {
        await book.keepDrafts(all.slice(done, done + together));
      } catch (error) {
        const why = error instanceof Error ? error.message : String(error);
        setStage({ is: 'writing', file: name, done, total, wrong: [t('import.not.kept', { why })] });
        return;
      }
    }
    setStage({ is: 'done', file: name, done: total, total });
  };

  /** The file first, then its entries: an entry never names bytes that are not there. */
  const confirm = async (mapping: ImportMapping) => {
    const [picked, reader] = [file.current, reading.current];
    if (picked === null || reader === null) return;
    turn.current += 1;
    const own = turn.current;
    setStage((old) => (old.is === 'look' ? { ...old, isBusy: true, wrong: [] } : old));
    try {
      const sha256 = await book.keepFile(picked);
      const decided = await reader.ask({
        do: 'decide',
        ...(await wish(mapping, options)),
        sha256,
        observedAt: observedNow(new Date()),
      });
      if (turn.current !== own) return;
      if (!decided.ok) {
        const where = decided.row === null ? picked.name : t('import.at.row', { row: decided.row });
        const wrong = refusalLines(decided.refusals).map((line) => `${where}: ${line}`);
        setStage((old) => (old.is === 'look' ? { ...old, isBusy: false, wrong } : old));
        return;
      }
      stopReading();
      drafts.current = decided.drafts;
      await writeFrom(picked.name, 0);
    } catch (error) {
      if (turn.current === own) fail(error);
    }
  };

  return {
    stage,
    options,
    pick: (picked: File) => void pick(picked),
    change: (mapping: ImportMapping, take?: Wish['take']) => void lookAgain(mapping, options, take),
    choose: (mapping: ImportMapping, next: Partial<Options>) =>
      void lookAgain(mapping, { ...options, ...next }),
    confirm: (mapping: ImportMapping) => void confirm(mapping),
    goOn: (name: string, from: number) => void writeFrom(name, from),
    stop: () => {
      isStopped.current = true;
    },
    leave: () => {
      stopReading();
      setStage({ is: 'pick', wrong: [] });
    },
  };
}

function troubleLines(error: unknown): readonly string[] {
  if (!(error instanceof ReadingTrouble))
    return [t('import.not.kept', { why: error instanceof Error ? error.message : String(error) })];
  const trouble: Trouble = error.trouble;
  switch (trouble.is) {
    case 'said':
      return [`${trouble.where}: ${trouble.what}. ${trouble.mend}`];
    case 'too large':
      return [t('import.too.large', { size: trouble.megabytes })];
    case 'too long':
      return [t('import.too.long', { seconds: trouble.seconds })];
    case 'broken':
      return [t('import.broken')];
  }
}
