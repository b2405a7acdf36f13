/** One row of the table of figures: id of the target, what was done, what came of it. */
export const figureLine = (id: string, what: string, figures: object): string =>
  `${id.padEnd(4)} ${what.padEnd(33)} ${Object.entries(figures)
    .map(([name, value]) => `${words(name)} ${typeof value === 'number' ? round(value) : value}`)
    .join(', ')}`;

const words = (name: string): string => name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
const round = (value: number): string => (Number.isInteger(value) ? String(value) : value.toFixed(3));
