import { readFileSync } from 'node:fs';

/** One published or independently recomputed number, with its inputs and its citation. */
export interface Check {
  readonly section: string;
  readonly id: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: unknown;
  readonly unit: string;
  readonly tol: string;
  readonly formula: string;
  readonly provenance: string;
}

const read = (place: string): readonly Check[] =>
  JSON.parse(readFileSync(new URL(place, import.meta.url), 'utf8'));

/** The numbers as they stand in the project. */
export const ownSheet = (): readonly Check[] => read('./published.json');

/** The reference sheet that lies beside the project where it is built; null elsewhere. */
export const referenceSheet = (): readonly Check[] | null => {
  try {
    return read('../../../../shared/reference/checks.json');
  } catch {
    return null;
  }
};
