export { type Habits, plainHabits } from './habits.ts';
export { type SeasonPlan, usualPlan } from './plan.ts';
export type { Meeting, Season, SeasonReadings, SeasonTruth } from './season.ts';
export { simulateSeason } from './simulate-season.ts';
export { type SlipKind, type SlippedReadings, type TrueSlip, withSlips } from './slips.ts';
