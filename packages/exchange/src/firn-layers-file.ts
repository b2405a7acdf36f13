import type { FirnLayer } from '@firnbook/science/firn';
import { cellError, type FieldNames, findColumns, metresIn, printedIn } from './columns.ts';
import type { NamedBytes } from './named-bytes.ts';
import { readTable } from './table.ts';
import { TableError } from './trouble.ts';

const field = (header: string, isNeeded: boolean, ...words: string[]): FieldNames => ({
  header,
  words,
  isNeeded,
});

const fields = {
  top: field('top_m', true, 'top', 'depth top', 'from', 'depth from'),
  bottom: field('bottom_m', true, 'bottom', 'depth bottom', 'to', 'depth to'),
  density: field('density_kg_m3', true, 'density kg m3', 'density'),
  random: field(
    'random_sd_kg_m3',
    false,
    'random sd kg m3',
    'sd kg m3',
    'density sd kg m3',
    'density sd',
    'sd',
  ),
  shared: field('shared_sd_kg_m3', false, 'shared sd kg m3'),
};

/** Of a density whose error the table does not say (common practice). */
const usualSd = 15;

/**
 * Reads measured densities for a fit: top_m, bottom_m, density_kg_m3, and where there are such columns
 * random_sd_kg_m3, shared_sd_kg_m3, as `firnbook density` writes them. Rows without density or depth are passed over.
 *
 * @throws TableError with file, line, column and what to do
 */
export const readFirnLayers = (
  file: NamedBytes,
): { readonly layers: readonly FirnLayer[]; readonly remarks: readonly string[] } => {
  const table = readTable(file.bytes, file.name);
  const columns = findColumns(table, fields, ['top', 'bottom']);
  let passedOver = 0;
  const layers = table.rows.flatMap((row): FirnLayer[] => {
    const number = (name: 'density' | 'random' | 'shared') =>
      printedIn(table, row, columns[name])?.value ?? null;
    const top = metresIn(table, row, columns.top);
    const bottom = metresIn(table, row, columns.bottom);
    const density = number('density');
    if (top === null || bottom === null || density === null) {
      passedOver += 1;
      return [];
    }
    if (!(bottom > top && top >= 0))
      throw cellError(
        table,
        row,
        columns.bottom!,
        `the row is from ${top} m to ${bottom} m`,
        'Write depths that go down from 0.',
      );
    if (!(density >= 20 && density <= 2000))
      throw cellError(
        table,
        row,
        columns.density!,
        `a density of ${density} is not one of snow or ice`,
        'Write it in kg/m3.',
      );
    const sd = number('random') ?? usualSd;
    if (!(sd > 0))
      throw cellError(
        table,
        row,
        columns.random!,
        'a standard deviation is above 0',
        'Write it, or leave the cell empty.',
      );
    return [{ top, bottom, density, sd, sharedShare: (number('shared') ?? 0) / density }];
  });
  if (layers.length === 0)
    throw new TableError(
      'no row has top, bottom and density',
      { file: table.file },
      'Add rows, or name another file.',
    );
  return {
    layers,
    remarks: [
      ...(passedOver === 0
        ? []
        : [`${table.file}: ${passedOver} rows without depth or density were passed over.`]),
      ...(columns.random === undefined
        ? [`${table.file} says no errors: ${usualSd} kg/m3 is taken for each density.`]
        : []),
    ],
  };
};
