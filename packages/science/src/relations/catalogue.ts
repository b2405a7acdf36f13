import { chemistryRelations } from '../chemistry/relations.ts';
import { datingRelations } from '../dating/relations.ts';
import { densityRelations } from '../density/relations.ts';
import { firnRelations } from '../firn/relations.ts';
import { geometryRelations } from '../geometry/relations.ts';
import { heatRelations } from '../heat/relations.ts';
import { iceRelations } from '../ice/relations.ts';
import { identifiersRelations } from '../identifiers/relations.ts';
import { mechanicsRelations } from '../mechanics/relations.ts';
import { radarRelations } from '../radar/relations.ts';
import { statisticsRelations } from '../statistics/relations.ts';
import type { Relation } from './relation.ts';

/** All relations that can be called by name, by subject. */
export const catalogue: Readonly<Record<string, readonly Relation[]>> = {
  ice: iceRelations,
  firn: firnRelations,
  density: densityRelations,
  dating: datingRelations,
  mechanics: mechanicsRelations,
  heat: heatRelations,
  geometry: geometryRelations,
  radar: radarRelations,
  chemistry: chemistryRelations,
  statistics: statisticsRelations,
  identifiers: identifiersRelations,
};

/** @returns undefined for a name that there isn't */
export const relationNamed = (name: string): Relation | undefined =>
  Object.values(catalogue)
    .flat()
    .find((one) => one.name === name);
