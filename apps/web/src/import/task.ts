import type { Refusal } from '@firnbook/campaign';
import type { ImportMapping, PreviewRow, Question, RowStatus, Unread } from '@firnbook/exchange/sheets';
import type { Draft, Entry } from '@firnbook/journal';
import type { Misfit } from '@firnbook/science/intervals';

/** What the reading thread is asked. It keeps the file between two tasks. */
export type Task =
  | { readonly do: 'read'; readonly file: File }
  | ({ readonly do: 'look' } & Wish)
  | ({ readonly do: 'decide'; readonly sha256: string; readonly observedAt: string } & Wish);

/** How the file is to be read, and into what. */
export interface Wish {
  /** Null: propose one. The offset may stand there as it was typed. */
  readonly mapping: ImportMapping | null;
  /** One table's rows are to be things of this kind: its columns are proposed anew. */
  readonly take?: { readonly table: number; readonly kind: string };
  readonly entries: readonly Entry[];
  /** Id of the hole that the rows belong to. */
  readonly hole: string;
  /** Id of the person who brings it in. */
  readonly by: string;
  /** Why rows that changed since the file was last brought in are corrected; null: they are left. */
  readonly correct: string | null;
}

export interface Answers {
  readonly read: readonly ShownTable[];
  readonly look: Look;
  readonly decide: Decided;
}

export type Answer =
  | { readonly ok: true; readonly answer: Answers[Task['do']] }
  /** The file cannot be used: what, where, and what to do. */
  | { readonly ok: false; readonly trouble: Trouble };

export type Trouble =
  | { readonly is: 'said'; readonly where: string; readonly what: string; readonly mend: string }
  | { readonly is: 'too large'; readonly megabytes: number }
  | { readonly is: 'too long'; readonly seconds: number }
  | { readonly is: 'broken' };

/** A table of the file, without its cells. */
export interface ShownTable {
  /** Null in a text file. */
  readonly sheet: string | null;
  readonly isHidden: boolean;
  /** Row of the heading, and letter of the first column in a workbook. */
  readonly headerRow: number;
  readonly firstColumn: string;
  readonly rows: number;
  readonly columns: readonly ShownColumn[];
}

export interface ShownColumn {
  /** As it stands above the column. */
  readonly text: string;
  readonly unit: string | null;
  /** Letter in a workbook, number in a text file. */
  readonly place: string;
  /** The first cells that say something. */
  readonly samples: readonly string[];
  readonly hasBlanks: boolean;
}

/** A list cut short, and how long it is. */
export interface Some<T> {
  readonly count: number;
  readonly first: readonly T[];
}

/** What bringing it in would do. */
export interface Look {
  readonly mapping: ImportMapping;
  /** Tables whose layout was confirmed before. */
  readonly remembered: readonly number[];
  readonly questions: readonly Question[];
  readonly counts: readonly { readonly kind: string; readonly status: RowStatus; readonly count: number }[];
  /** Rows that would be written. */
  readonly writes: number;
  /** The first of them, of each kind. */
  readonly rows: readonly PreviewRow[];
  /** Rows in the book already or withdrawn there, of all that could be read. */
  readonly known: number;
  readonly unread: Some<ShownUnread>;
  readonly changed: Some<PreviewRow>;
  readonly differs: Some<PreviewRow>;
  readonly doubts: Some<PreviewRow>;
  /** In English, as the reader says them. */
  readonly remarks: readonly string[];
  readonly closures: readonly ShownClosure[];
}

/** Something that could not be read, as a person finds it. */
export interface ShownUnread extends Pick<Unread, 'what' | 'mend'> {
  readonly sheet: string | null;
  readonly row: number;
  /** Letter in a workbook, number in a text file; null where the row is meant. */
  readonly column: string | null;
  readonly header: string;
}

export interface ShownClosure {
  readonly table: number;
  readonly misfits: Some<ShownMisfit>;
}

/** What does not close, by the rows of the file. Metres. */
export interface ShownMisfit extends Pick<Misfit, 'what' | 'from' | 'to' | 'size'> {
  readonly row: number;
  readonly label: string;
  /** Row of the file that it is held against. */
  readonly against: number | null;
}

export type Decided =
  | { readonly ok: true; readonly drafts: readonly Draft[]; readonly rows: number }
  | { readonly ok: false; readonly row: number | null; readonly refusals: readonly Refusal[] };
