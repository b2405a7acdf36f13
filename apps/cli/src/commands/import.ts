import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { type HoleView, kinds, sayEnglish } from '@firnbook/campaign';
import {
  commandsOf,
  decideImport,
  type ImportMapping,
  type Preview,
  previewImport,
  proposeMapping,
  type Question,
  type ReadSheets,
  readOffset,
  rememberedMappings,
} from '@firnbook/exchange/sheets';
import { Command } from 'commander';
import { existingDataFolder } from '../data-folder.ts';
import { contextOf, type Desk, type OpenBook, openDesk } from '../desk.ts';
import { findCampaign, findHoleOf } from '../find-in-book.ts';
import { mapField, readColumn, takeAs } from '../import/change-mapping.ts';
import { previewInWords } from '../import/preview-words.ts';
import { readInWorker } from '../import/read-in-worker.ts';
import { CommandError } from '../refusal.ts';
import { personOf } from '../say-in-book.ts';
import type { End, Terminal } from '../terminal.ts';

interface Options {
  readonly campaign: string;
  readonly hole?: string;
  readonly initials: string;
  readonly sheet?: string;
  readonly allSheets?: boolean;
  readonly as?: string;
  readonly map?: readonly string[];
  readonly read?: readonly string[];
  readonly offset?: string;
  readonly day?: string;
  readonly correct?: string;
  readonly yes?: boolean;
  readonly dryRun?: boolean;
  readonly data?: string;
}

const example = `
Any table: CSV, semicolons, tabs; XLSX with its sheets. Comma or point, units in headings ("Length (cm)", depth_to_m,
"T / °C") or in a line below them, titles above, several tables. What a column proves is taken; what it doesn't prove
(12/06/2026, 1,234) is asked. Nothing is written before you have seen the preview and said yes.

Importing a file again adds what is new in it and nothing else. The file is kept as it came.

  --map length="Core (cm)"     a column for a field; piece.length=... where several kinds have the field
  --map topBreak==unsure       the same word for every row       --map number=#    count the rows
  --map note=                  leave a field out                 --map day=Date    also time=, hole=
  --read Date=day-first        or month-first, year-first        --read Mass=comma or point
  --read Length=cm             the unit                          --read Run=as-above  blank means as above

Example (the Ceredin Saddle is invented):
  firnbook import core-log.xlsx --campaign "Ceredin Saddle" --hole B --initials KM --offset +05:45
`;

const repeated = (value: string, before: readonly string[] = []): readonly string[] => [...before, value];

/** Rows of a table file into the book, through the same commands as every screen. */
export const importCommand = (terminal: Terminal, end: End): Command =>
  new Command('import')
    .description('log the rows of a table file (CSV, XLSX): previewed, asked about, kept as it came')
    .argument('<file>', 'CSV or XLSX file')
    .requiredOption('--campaign <name>', 'name or id of the campaign')
    .option('--hole <letter>', 'hole that the rows belong to, where the campaign has several')
    .requiredOption('--initials <initials>', 'of the person who imports')
    .option('--sheet <name>', 'take this sheet only, also where it is hidden')
    .option('--all-sheets', 'rows of one kind on several sheets all belong to this hole')
    .option('--as <kind>', 'what the rows are: run, piece, sounding, ... (firnbook kinds lists them)')
    .option('--map <field=column>', 'what a column means; may be repeated', repeated)
    .option('--read <column=word>', 'how a column is read; may be repeated', repeated)
    .option('--offset <offset>', "the clock's offset from UTC, +05:45 or Z")
    .option('--day <date>', 'day of rows that give none, 2026-06-14')
    .option('--correct <reason>', 'correct rows of this file that changed since it was imported')
    .option('--yes', 'log without asking')
    .option('--dry-run', 'show the preview and write nothing')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (path: string, options: Options) => {
      const bytes = readFileSync(path);
      const folder = existingDataFolder(options.data, terminal);
      terminal.err(`Reading ${path} ...\n`);
      const read = await readInWorker({ bytes, name: basename(path) });
      const desk = await openDesk(folder);
      try {
        const opened = await findCampaign(desk, options.campaign);
        if (opened.trouble !== null)
          terminal.err(`The book is as the command line last had it. ${opened.trouble}\n`);
        const work = new Import(terminal, options, read, opened);
        if (!(await work.isConfirmed())) end(options.dryRun ? 0 : 2);
        else {
          await work.write(desk, bytes);
          if (opened.unsigned !== null) terminal.err(`This is not signed. ${opened.unsigned}\n`);
        }
      } finally {
        await desk.close();
      }
    });

/** One file on its way into one book. */
class Import {
  readonly #terminal: Terminal;
  readonly #options: Options;
  readonly #read: ReadSheets;
  readonly #opened: OpenBook;
  readonly #by: string;
  readonly #hole: HoleView | null;
  #mapping: ImportMapping;
  #preview: Preview;

  constructor(terminal: Terminal, options: Options, read: ReadSheets, opened: OpenBook) {
    this.#terminal = terminal;
    this.#options = options;
    this.#read = read;
    this.#opened = opened;
    this.#by = personOf(opened, options.initials);
    this.#mapping = this.#proposed();
    this.#hole = this.#holeFor();
    this.#preview = this.#look();
  }

  #proposed(): ImportMapping {
    const { sheet, allSheets, as, map = [], read: readings = [], offset, day } = this.#options;
    const read = this.#read;
    if (sheet !== undefined && !read.tables.some((table) => isCalled(table.sheet, sheet)))
      throw new CommandError(
        `there is no table on a sheet "${sheet}"`,
        '--sheet',
        `There are: ${[...new Set(read.tables.map((table) => table.sheet ?? '(a text file has no sheets)'))].join(', ')}.`,
      );
    const remembered = rememberedMappings(this.#opened.replica.ledger.entries());
    const proposal = proposeMapping(read, kinds, remembered, sheet ?? null);
    for (const note of proposal.notes) this.#terminal.err(`${note}\n`);
    if (proposal.remembered.length > 0)
      this.#terminal.err('This layout was imported before: its columns are read as they were then.\n');
    let mapping: ImportMapping = { ...proposal.mapping, areAllMeant: allSheets ?? false };
    const isWanted = (name: string | null, isHidden: boolean): boolean =>
      sheet === undefined ? !isHidden : isCalled(name, sheet);
    if (as !== undefined)
      mapping = takeAs(mapping, read, kinds, as, (table) => isWanted(table.sheet, table.isHidden));
    for (const one of map) mapping = mapField(mapping, read, kinds, one);
    for (const one of readings) mapping = readColumn(mapping, read, one);
    if (offset !== undefined) mapping = withOffset(mapping, offset, '--offset');
    if (day !== undefined) mapping = withDay(mapping, day, '--day');
    if (mapping.tables.every(({ things }) => things.length === 0))
      throw new CommandError(
        'no table in it was recognised',
        read.file,
        `Say what its rows are with --as, and its columns with --map. Columns: ${[...new Set(read.tables.flatMap(({ columns }) => columns.map(({ text }) => text)))].join(', ')}.`,
      );
    return mapping;
  }

  /** Needed where a table's rows belong to a hole. */
  #holeFor(): HoleView | null {
    const words = this.#mapping.tables.flatMap(({ things }) => things.map(({ kind }) => kind));
    const isNeeded = kinds.some(({ kind, under }) => under === 'hole' && words.includes(kind));
    const { hole, campaign } = this.#options;
    if (!isNeeded && hole === undefined) return null;
    return findHoleOf(this.#opened.book.view().holes, hole, campaign);
  }

  #look(): Preview {
    return previewImport({
      read: this.#read,
      mapping: this.#mapping,
      kinds,
      entries: this.#opened.replica.ledger.entries(),
      hole: this.#hole?.id ?? null,
      by: this.#by,
      correct: this.#options.correct ?? null,
    });
  }

  /** Shows what would be logged; asks what is open; true where all is said and a person agrees. */
  async isConfirmed(): Promise<boolean> {
    const { ask, out } = this.#terminal;
    for (let question = this.#preview.questions[0]; question !== undefined && ask !== null; ) {
      this.#mapping = await this.#answered(question, ask);
      this.#preview = this.#look();
      question = this.#preview.questions[0];
    }
    out(previewInWords(this.#read, this.#mapping, this.#preview));
    const count = this.#preview.rows.filter(({ command }) => command !== null).length;
    if (this.#options.dryRun) {
      out('Nothing was written (--dry-run).\n');
      return false;
    }
    if (this.#preview.questions.length > 0)
      throw new CommandError(
        'something has to be said first, see above; nothing was written',
        this.#read.file,
        'Say it with --read, --sheet, --all-sheets, --offset or --day.',
      );
    if (count === 0) {
      out('There is nothing to log: nothing was written.\n');
      return true;
    }
    if (this.#options.yes) return true;
    if (ask === null)
      throw new CommandError(
        'nobody has said yes; nothing was written',
        this.#read.file,
        'Look at the preview above, then repeat the command with --yes.',
      );
    const answer = await ask(`Log these ${count} rows? [y/N] `);
    if (/^\s*y(?:es)?\s*$/i.test(answer)) return true;
    out('Nothing was written.\n');
    return false;
  }

  async #answered(question: Question, ask: NonNullable<Terminal['ask']>): Promise<ImportMapping> {
    const { what, choices, about } = question;
    const list = choices.map(({ label }, i) => `  ${i + 1}  ${label}\n`).join('');
    for (;;) {
      const answer = (await ask(`${what}\n${list}> `)).trim();
      if (answer === '')
        throw new CommandError('this has to be said first; nothing was written', this.#read.file, what);
      const chosen = choices.find(({ label }, i) => String(i + 1) === answer || label === answer);
      if (chosen !== undefined) return chosen.mapping;
      try {
        if (about === 'offset') return withOffset(this.#mapping, answer, 'offset');
        if (about === 'day') return withDay(this.#mapping, answer, 'day');
      } catch (error) {
        if (!(error instanceof CommandError)) throw error;
        this.#terminal.out(`${error.message}\n`);
      }
    }
  }

  /** The file first, then its entries: an entry never names bytes that are not there. */
  async write(desk: Desk, bytes: Uint8Array): Promise<void> {
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const hole = this.#hole?.id ?? null;
    const commands = commandsOf(this.#preview, this.#read, this.#mapping, sha256, hole);
    if (commands.length === 0) return;
    const entries = this.#opened.replica.ledger.entries();
    const decided = decideImport(entries, commands, contextOf(this.#by));
    if (!decided.ok)
      throw new CommandError(
        decided.refusals.map(({ what }) => sayEnglish(what).replace(/\.$/, '')).join('; '),
        decided.row === null ? this.#read.file : `${this.#read.file}, row ${decided.row}`,
        decided.refusals.map(({ mend }) => sayEnglish(mend)).join(' '),
      );
    await desk.camp.attach(this.#opened.campaign, sha256, bytes);
    const written = await this.#opened.write(decided.drafts);
    this.#terminal.out(
      `Logged: ${commands.length - 1} rows of ${this.#read.file}, ${written.length} entries. The file is kept as it came, SHA-256 ${sha256}.\n`,
    );
  }
}

const isCalled = (sheet: string | null, said: string): boolean => sheet?.toLowerCase() === said.toLowerCase();

const withOffset = (mapping: ImportMapping, said: string, where: string): ImportMapping => {
  const offset = readOffset(said);
  if (offset === null)
    throw new CommandError(`"${said}" is no offset from UTC`, where, 'Write +05:45, -03:00 or Z.');
  return { ...mapping, offset };
};

const withDay = (mapping: ImportMapping, said: string, where: string): ImportMapping => {
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(said) && !Number.isNaN(Date.parse(`${said}T00:00:00Z`));
  if (!isDay) throw new CommandError(`"${said}" is no day`, where, 'Write it as 2026-06-14.');
  return { ...mapping, givenDay: said };
};
