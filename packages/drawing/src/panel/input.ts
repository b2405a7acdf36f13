import type { ColourName } from '../shape.ts';

/** A line down the panel, with a band where its low and high are given. */
export interface Curve {
  readonly points: readonly {
    /** Metres. */
    readonly depth: number;
    readonly value: number;
    readonly low?: number;
    readonly high?: number;
  }[];
  readonly colour: ColourName;
  /** Dash and gap in millimetres: curves of one panel differ by more than their colour. */
  readonly dash?: readonly number[];
}

/** A value over a length of ice, as it was measured: drawn at its true length, never as a point. */
export interface PanelSample {
  /** Id of the thing that was measured. */
  readonly thing: string;
  /** Depths in metres. */
  readonly top: number;
  readonly bottom: number;
  readonly value: number;
  /** Standard deviation of the value; null where none is known. */
  readonly sd: number | null;
  /** A person is needed: it can't be, or it doesn't fit. */
  readonly flagged: boolean;
}

/** One quantity along the core. */
export interface PanelInput {
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  /** From the top down, not overlapping. */
  readonly samples: readonly PanelSample[];
  /** Smooth or computed lines over them. */
  readonly curves: readonly Curve[];
  /** Depths at which ice is missing. */
  readonly gaps: readonly { readonly top: number; readonly bottom: number }[];
}

export interface PanelOptions {
  /** Millimetres. */
  readonly width: number;
  /** The same scale and window as the core beside it. */
  readonly mmPerMetre: number;
  readonly window: { readonly from: number; readonly to: number };
  readonly type?: number;
  readonly colour?: ColourName;
  readonly selected?: string | null;
  /** Depth of the reading line that crosses all panels; null where nothing is looked at. */
  readonly line?: number | null;
  readonly number?: (value: number, decimals: number) => string;
}

/** What a panel's shapes are placed by. */
export interface PanelFrame {
  readonly input: PanelInput;
  readonly options: PanelOptions;
  readonly head: number;
  readonly height: number;
  /** Values beyond the range stand at its end. */
  readonly x: (value: number) => number;
  readonly y: (depth: number) => number;
  readonly left: number;
  readonly right: number;
}
