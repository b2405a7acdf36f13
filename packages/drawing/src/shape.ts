/**
 * One display list for canvas, SVG and PDF. All lengths are millimetres on paper or screen, y down.
 * Colours are names; a theme gives them values, so a shape never holds a colour itself.
 */

export type ColourName =
  | 'paper'
  | 'sheet'
  | 'ink'
  | 'ink-2'
  | 'line'
  | 'ice'
  | 'ice-lit'
  | 'ice-edge'
  | 'bubble'
  | 'melt'
  | 'melt-ink'
  | 'dust'
  | 'call'
  | 'call-bg'
  | 'act'
  | 'act-ink'
  | 'ok';

export interface Stroke {
  readonly colour: ColourName;
  readonly width: number;
  readonly dash?: readonly number[];
}

/** A fill lit across its width like a cylinder: edge, lit in the middle, edge. */
export type Fill =
  | ColourName
  | { readonly cylinder: { readonly x0: number; readonly x1: number } }
  | { readonly hatch: ColourName; readonly step: number };

interface Marked {
  /** Id of the thing that this shape shows; hit testing answers with it. */
  readonly thing?: string;
}

export type Shape = Marked &
  (
    | {
        readonly is: 'line';
        readonly points: readonly (readonly [number, number])[];
        readonly stroke: Stroke;
        readonly close?: boolean;
        readonly fill?: Fill;
      }
    | {
        readonly is: 'rect';
        readonly x: number;
        readonly y: number;
        readonly w: number;
        readonly h: number;
        readonly fill?: Fill;
        readonly stroke?: Stroke;
      }
    | {
        readonly is: 'circle';
        readonly x: number;
        readonly y: number;
        readonly r: number;
        readonly fill?: Fill;
        readonly stroke?: Stroke;
      }
    | {
        /** Many small discs in one colour: bubbles by the hundred cost one shape. */
        readonly is: 'dots';
        /** x, y, radius. */
        readonly dots: readonly (readonly [number, number, number])[];
        readonly fill: ColourName;
      }
    | {
        readonly is: 'text';
        readonly x: number;
        /** Baseline. */
        readonly y: number;
        readonly text: string;
        /** Height of the type in millimetres. */
        readonly size: number;
        readonly anchor: 'start' | 'middle' | 'end';
        readonly colour: ColourName;
        readonly face: 'words' | 'numbers';
        readonly weight?: 400 | 700;
      }
  );

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Read aloud in place of the picture. */
  readonly title: string;
  readonly shapes: readonly Shape[];
}
