import type { Relation } from '@firnbook/science/relations';

/** The page that explains a relation, on the camp computer's own site. */
export const methodPage = ({ page }: Pick<Relation, 'page'>): string => `/method/${page}.html`;
