export { FAULTS } from './faults.ts';
export { HONEST, MUTANTS, type Mutant } from './mutants.ts';
export { type Outcome, runSchedule } from './schedule.ts';
export { findViolation, type Survey, surveySchedules } from './survey.ts';
