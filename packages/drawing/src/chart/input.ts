/** A figure of a method page: what is drawn, in its own units. */
export interface Chart {
  readonly title: string;
  readonly x: ChartAxis;
  readonly y: ChartAxis;
  /** Lines through points, in the order that the legend lists them. */
  readonly curves: readonly ChartCurve[];
  /** Single readings: published values, measured points. */
  readonly points?: readonly ChartPoints[];
  /** Between two curves: an interval. */
  readonly bands?: readonly ChartBand[];
}

export interface ChartAxis {
  readonly label: string;
  readonly unit: string;
  readonly from: number;
  /** May be below `from`: an axis of depth runs down. */
  readonly to: number;
  readonly log?: true;
}

export interface ChartCurve {
  readonly label: string;
  readonly at: readonly (readonly [x: number, y: number])[];
  readonly dashed?: true;
}

export interface ChartPoints {
  readonly label: string;
  readonly at: readonly (readonly [x: number, y: number])[];
}

export interface ChartBand {
  readonly label: string;
  /** x, lower y, upper y. */
  readonly at: readonly (readonly [x: number, lower: number, upper: number])[];
}
