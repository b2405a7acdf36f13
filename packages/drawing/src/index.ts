export { type Box, boundsOf, shapesWithin } from './bounds.ts';
export { type Brush, paint } from './canvas.ts';
export { chart } from './chart/chart.ts';
export type { Chart, ChartAxis, ChartBand, ChartCurve, ChartPoints } from './chart/input.ts';
export { unitWords } from './chart/unit-words.ts';
export { blend } from './column/blend.ts';
export { type ColumnPicture, coreColumn, depthAt } from './column/column.ts';
export { headingHeight } from './column/frame.ts';
export {
  type ColumnBreak,
  type ColumnDepth,
  type ColumnFeature,
  type ColumnInput,
  type ColumnMark,
  type ColumnPiece,
  type ColumnRun,
  columnInput,
} from './column/input.ts';
export {
  type ColumnOptions,
  type ColumnParts,
  type ColumnWord,
  columnWords,
  depthDecimals,
  spread,
  stripOnly,
} from './column/options.ts';
export { contrast } from './contrast.ts';
export { hit, thumbSlack } from './hit.ts';
export { type Level, type LevelsOptions, zeroLevels } from './levels/levels.ts';
export type { Curve, PanelInput, PanelOptions, PanelSample } from './panel/input.ts';
export { panel } from './panel/panel.ts';
export type { ColourName, Fill, Picture, Shape, Stroke } from './shape.ts';
export { type SpliceRecord, type SpliceTie, spliceColumns } from './splices/splices.ts';
export { tiesBetween } from './splices/ties.ts';
export { type Fonts, plainFonts, toSvg, toSvgInPage } from './svg.ts';
export { colourNames, type Theme, type ThemeName, themeStyleSheet, themes, themeVariables } from './theme.ts';
