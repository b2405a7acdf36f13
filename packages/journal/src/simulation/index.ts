export { HONEST, MUTANTS, type Mutant } from './mutants.ts';
export { findViolation, type Outcome, runSchedule, type Survey, surveySchedules } from './schedule.ts';
