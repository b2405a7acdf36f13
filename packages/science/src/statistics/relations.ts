import type { Relation } from '../relations/relation.ts';
import { fitsRelations } from './fits-relations.ts';
import { seriesRelations } from './series-relations.ts';
import { uncertaintyRelations } from './uncertainty-relations.ts';

export const statisticsRelations: readonly Relation[] = [
  ...fitsRelations,
  ...uncertaintyRelations,
  ...seriesRelations,
];
