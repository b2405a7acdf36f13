import type { Chart } from '@firnbook/drawing';
import { daysOfYearNamed, type YearName } from '@firnbook/science/dating';

/** Days by which so many years of a name run ahead of as many calendar years, on average over leap days. */
const ahead = (label: YearName) => {
  const gain = daysOfYearNamed(label) - daysOfYearNamed('UCUM a_g');
  return {
    label,
    at: [
      [0, 0],
      [2000, 2000 * gain],
    ] as const,
  };
};

export const chart: Chart = {
  title: 'How far years of other lengths run ahead of the calendar',
  x: { label: 'years', unit: '1', from: 0, to: 2000 },
  y: { label: 'ahead of the calendar', unit: 'd', from: -2, to: 16 },
  curves: [ahead('UCUM a'), { ...ahead('UCUM a_t'), dashed: true }],
};
