import type { Relation } from '../relations/relation.ts';
import { cableStretchRelation } from './cable-relation.ts';
import { holeClosureAlongRelation, holeClosureRelation } from './closure-relations.ts';
import { creepParameterRelation, glenRelation, overburdenRelation } from './creep-relations.ts';
import {
  chipsRelation,
  coreBreakRelation,
  hoistingPowerRelation,
  holeTimeRelation,
  penetrationRelation,
  runTimeRelation,
} from './drill-relations.ts';

export const mechanicsRelations: readonly Relation[] = [
  holeClosureRelation,
  holeClosureAlongRelation,
  creepParameterRelation,
  glenRelation,
  overburdenRelation,
  cableStretchRelation,
  penetrationRelation,
  chipsRelation,
  runTimeRelation,
  holeTimeRelation,
  coreBreakRelation,
  hoistingPowerRelation,
];
