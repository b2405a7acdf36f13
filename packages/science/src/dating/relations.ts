import { horizonRelations } from '../horizons/relations.ts';
import type { Relation } from '../relations/relation.ts';
import { calendarRelations } from './calendar-relations.ts';
import { decayRelations } from './decay-relations.ts';
import { flowRelations } from './flow-relations.ts';

export const datingRelations: readonly Relation[] = [
  ...flowRelations,
  ...calendarRelations,
  ...decayRelations,
  ...horizonRelations,
];
