import type { Chart, ChartAxis } from '@firnbook/drawing';

/** What a figure shows as a table after RFC 4180: one line for each point, with a point for the decimal mark. */
export function figureCsv({ x, y, curves, points = [], bands = [] }: Chart): string {
  const named = ({ label, unit }: ChartAxis): string => `${label} [${unit}]`;
  const rows: (readonly (string | number)[])[] = [
    ['kind', 'name', named(x), named(y), `upper ${named(y)}`],
    ...curves.flatMap(({ label, at }) => at.map(([across, up]) => ['line', label, across, up, ''])),
    ...points.flatMap(({ label, at }) => at.map(([across, up]) => ['reading', label, across, up, ''])),
    ...bands.flatMap(({ label, at }) => at.map(([across, low, high]) => ['band', label, across, low, high])),
  ];
  return rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

/** Numbers keep twelve digits; no figure is finer. */
const cell = (value: string | number): string =>
  typeof value === 'number'
    ? String(Number(value.toPrecision(12)))
    : /[",\r\n]/.test(value)
      ? `"${value.replaceAll('"', '""')}"`
      : value;
