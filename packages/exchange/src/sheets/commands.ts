import type { Command, Context, Refusal } from '@firnbook/campaign';
import type { Draft, Entry } from '@firnbook/journal';
import type { ImportMapping } from './mapping.ts';
import type { Preview } from './preview.ts';
import { PARSER, rememberTable } from './remember.ts';
import { openScratch } from './scratch.ts';
import { ORIGIN } from './source.ts';
import type { ReadSheets } from './tables.ts';

/** One command of an import, with the time that its row says and where it stands in the file. */
export interface ImportCommand {
  readonly command: Command;
  /** Null for the import itself: it is seen when it is done. */
  readonly at: string | null;
  readonly sheet: string | null;
  readonly row: number | null;
}

/**
 * Everything that an import writes, in order: first the import itself (file, digest, confirmed mapping, parser's
 * version), then the rows. None while a question is open, and none where no row would be written: a file that adds
 * nothing leaves no trace.
 *
 * @param sha256 of the file's bytes, by which they are attached
 * @param hole id of the hole, as in the preview
 */
export const commandsOf = (
  preview: Preview,
  read: ReadSheets,
  mapping: ImportMapping,
  sha256: string,
  hole: string | null,
): readonly ImportCommand[] => {
  const rows = preview.rows.flatMap(({ command, at, table, row }): readonly ImportCommand[] =>
    command === null ? [] : [{ command, at, sheet: read.tables[table]!.sheet, row }],
  );
  if (rows.length === 0 || preview.questions.length > 0) return [];
  const remembered = mapping.tables.flatMap((mapped, i) =>
    mapped.things.length === 0 ? [] : [rememberTable(read.tables[i]!, mapped, mapping.offset)],
  );
  const log: Command = {
    do: 'log',
    kind: 'import',
    readings: {
      file: read.file,
      bytes: sha256,
      parser: PARSER,
      mapping: JSON.stringify(remembered),
      ...(hole !== null && { hole }),
    },
  };
  return [{ command: log, at: null, sheet: null, row: null }, ...rows];
};

export type DecidedImport =
  | { readonly ok: true; readonly drafts: readonly Draft[] }
  | { readonly ok: false; readonly row: number | null; readonly refusals: readonly Refusal[] };

/**
 * What the commands come to, all or none. Each entry's body says which import it came with and from which row.
 *
 * @param entries the journal as it is now
 * @param context who imports and when; rows keep their own times
 */
export const decideImport = (
  entries: readonly Entry[],
  commands: readonly ImportCommand[],
  context: Context,
): DecidedImport => {
  const scratch = openScratch(entries);
  const drafts: Draft[] = [];
  for (const { command, at, sheet, row } of commands) {
    const decision = scratch.take(command, { ...context, observedAt: at ?? context.observedAt });
    if (!decision.ok) return { ok: false, row, refusals: decision.refusals };
    const entry = drafts[0]?.id ?? null;
    for (const draft of decision.drafts)
      drafts.push(
        entry === null || row === null
          ? draft
          : {
              ...draft,
              body: { ...draft.body, [ORIGIN]: { entry, row, ...(sheet !== null && { sheet }) } },
            },
      );
  }
  return { ok: true, drafts };
};
