import type { Relation } from '../relations/relation.ts';
import { closeOffRelations } from './close-off-relations.ts';
import { herronLangwayRelations } from './herron-langway-relations.ts';
import { meltRelations } from './melt-relations.ts';

export const firnRelations: readonly Relation[] = [
  ...herronLangwayRelations,
  ...closeOffRelations,
  ...meltRelations,
];
