import type { DepthAssumptions, DepthSolution, Estimate, Finding } from '@firnbook/science/depth';
import type { Right } from './kind.ts';
import type { Sentence } from './texts/sentence.ts';

/** One reading as people see it: what counts now, what was struck through, what contradicts it. */
export interface ReadingView {
  readonly field: string;
  /** As typed, with its unit. */
  readonly text: string;
  /** In the field's base unit (metres, whole number); null where the field is words. */
  readonly value: number | null;
  /** The entry that says so. */
  readonly entry: string;
  readonly by: string;
  readonly at: string;
  readonly struck: readonly StruckReading[];
  /** Other readings that also claim to count; a person settles it. */
  readonly against: readonly StruckReading[];
  /** Entries that claim the same; present where there are any. A correction has to name them too. */
  readonly agreeing?: readonly string[];
}

export interface StruckReading {
  readonly text: string;
  readonly value: number | null;
  readonly entry: string;
  readonly by: string;
  readonly at: string;
  /** Reason given by the entry that struck it (or that claims it). */
  readonly reason?: string;
}

/** Why a thing no longer counts, as the last one who said so has it. */
interface Withdrawn {
  readonly reason: string;
  readonly by: string;
  readonly at: string;
  /** Every entry that withdraws it: whoever restores it has to name them. */
  readonly entries: readonly string[];
}

export interface ThingView {
  readonly id: string;
  readonly kind: string;
  /** "B-R003", "B-P003.1". */
  readonly name: string;
  readonly aliases: readonly string[];
  readonly by: string;
  readonly at: string;
  readonly device: string;
  readonly readings: Readonly<Record<string, ReadingView>>;
  readonly withdrawn: Withdrawn | null;
  /** Every entry that touched it, oldest first. */
  readonly entries: readonly string[];
  /** Ids of things that were joined into this one; present where there are any. */
  readonly absorbed?: readonly string[];
}

export interface RunView extends ThingView {
  readonly number: number;
  readonly nothingRecovered: boolean;
  readonly pieces: readonly PieceView[];
}

export interface PieceView extends ThingView {
  readonly run: string;
  readonly number: number;
}

export interface ConflictView {
  /** Stable while the conflict lasts. */
  readonly key: string;
  readonly kind: 'two readings' | 'same name' | 'cloned device' | 'right used';
  /** "Two runs are called B-R003." */
  readonly says: Sentence;
  readonly things: readonly string[];
  readonly field?: string;
  /** Of a right that was used without having it: what a person who may sign off names to let it stand. */
  readonly used?: UsedRight;
}

export interface UsedRight {
  readonly person: string;
  readonly right: Right;
  /** The entries written so, oldest first. */
  readonly entries: readonly string[];
}

/** Things by the word of their kind: "weather", "cable check". A kind of which there is none is absent. */
export type OtherThings = Readonly<Record<string, readonly ThingView[]>>;

export interface HoleView extends ThingView {
  readonly letter: string;
  readonly zeros: readonly ThingView[];
  /** In order of number, withdrawn ones included and marked. */
  readonly runs: readonly RunView[];
  readonly soundings: readonly ThingView[];
  /** Everything else told about the hole, by kind, in total order of logging. */
  readonly others: OtherThings;
  readonly conflicts: readonly ConflictView[];
  /** Entries that this version does not understand, and corrections whose target has not arrived. */
  readonly notUnderstood: number;
  readonly waiting: number;
}

/** Solved depths of one hole, by id. */
export interface DepthView {
  readonly hole: string;
  readonly solver: string;
  readonly assumptions: DepthAssumptions;
  readonly pieces: Readonly<Record<string, { readonly top: Estimate; readonly bottom: Estimate }>>;
  readonly runs: Readonly<Record<string, { readonly holeBottom: Estimate; readonly stub: Estimate }>>;
  readonly findings: readonly Finding[];
  /** Those that a person has looked at and says are right. */
  readonly confirmed: readonly Finding[];
  /** What the readings taught about cable, tape, chips, stubs and gaps. */
  readonly learned: DepthSolution['learned'];
  /** False where the solution did not settle: the depths are rough then. */
  readonly converged: boolean;
  /** Bottom of the solved core and of the hole, for the summary. */
  readonly coreBottom: Estimate | null;
  readonly holeBottom: Estimate | null;
}

/** What one person may do. */
export type Rights = Readonly<Record<Right, boolean>>;

/** What the record says of rights at one place in its order. */
export interface CampaignRights {
  /** False where everybody may do everything, as in a campaign that says nothing about it. */
  readonly byName: boolean;
  readonly asksPin: boolean;
  /** By id of the person, also by ids that were joined. Who is not in it was given nothing. */
  readonly people: ReadonlyMap<string, Rights>;
}

export interface CampaignView {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  readonly people: readonly ThingView[];
  readonly holes: readonly HoleView[];
  /** The thing that `campaign.opened` made; null while it has not arrived. */
  readonly opened?: ThingView | null;
  readonly devices?: readonly ThingView[];
  /** Everything else told about the campaign, by kind, in total order of logging. */
  readonly others: OtherThings;
  /** Absent where the campaign has never said anything about rights: everybody may do everything. */
  readonly rights?: CampaignRights;
  /** Between holes, of the campaign itself, and cloned devices; a hole's own stand in its view. */
  readonly conflicts?: readonly ConflictView[];
  /** Outside of holes: entries that this version does not understand, and what waits for its target. */
  readonly notUnderstood?: number;
  readonly waiting?: number;
}
