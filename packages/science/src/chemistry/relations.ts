import type { Relation } from '../relations/relation.ts';
import { censoredRelations } from './censored-relations.ts';
import { ionRelations } from './ion-relations.ts';
import { isotopeRelations } from './isotope-relations.ts';
import { limitRelations } from './limit-relations.ts';
import { saltRelations } from './salt-relations.ts';

/** Relations of chemistry that can be called by name. */
export const chemistryRelations: readonly Relation[] = [
  ...saltRelations,
  ...ionRelations,
  ...isotopeRelations,
  ...limitRelations,
  ...censoredRelations,
];
