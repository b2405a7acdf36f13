import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DateOrder, dateEvidence, isDateLike, readDate } from './dates.ts';

describe('readDate', () => {
  it.each([
    ['2026-06-14', '2026-06-14', null, null],
    ['2026-06-14T08:30:15+05:45', '2026-06-14', '08:30:15', '+05:45'],
    ['2026-06-14 08:30Z', '2026-06-14', '08:30:00', 'Z'],
    ['14.06.2026', '2026-06-14', null, null],
    ['14.6.26', '2026-06-14', null, null],
    ['14/06/2026 14:05', '2026-06-14', '14:05:00', null],
    ['14. Juni 2026', '2026-06-14', null, null],
    ['14 juin 2026', '2026-06-14', null, null],
    ['Sun, 14 Jun 2026', '2026-06-14', null, null],
    ['June 14th, 2026 2:05 pm', '2026-06-14', '14:05:00', null],
    ['20260614', '2026-06-14', null, null],
    ['20260614T0830Z', '2026-06-14', '08:30:00', 'Z'],
    ['14:05', null, '14:05:00', null],
    ['12:05 am', null, '00:05:00', null],
  ])('%s', (text, day, time, offset) => {
    expect(readDate(text, 'day first')).toEqual({ day, time, offset });
  });

  it.each(['31.02.2026', '06/14/2026', '25:00', '14.06.', '1.5', 'Juni', '2026-13-01', '13:05 pm', ''])(
    '%j is no date with the day first',
    (text) => {
      expect(readDate(text, 'day first')).toBeNull();
    },
  );

  it('29 February is a day in leap years alone', () => {
    expect(readDate('29.02.2024', 'day first')?.day).toBe('2024-02-29');
    expect(readDate('29.02.2026', 'day first')).toBeNull();
  });
});

describe('the order of a column', () => {
  it('one day above 12 proves it for all', () => {
    expect(dateEvidence(['01/06/2026', '02/06/2026', '13/06/2026'])).toMatchObject({
      orders: ['day first'],
      example: null,
    });
    expect(dateEvidence(['06/01/2026', '06/13/2026'])).toMatchObject({ orders: ['month first'] });
  });

  it('without proof it is left open, with a hint where one order runs forwards alone', () => {
    const evidence = dateEvidence(['11/06/2026', '12/06/2026', '01/07/2026']);
    expect(evidence).toMatchObject({ orders: ['day first', 'month first'], example: '11/06/2026' });
    expect(evidence.running).toEqual(['day first']);
  });

  it('contradictions leave none', () => {
    expect(dateEvidence(['13/06/2026', '06/13/2026']).orders).toEqual([]);
  });

  it('ISO dates, month words and a spreadsheet’s own dates need no order', () => {
    expect(dateEvidence(['2026-06-01', '3 Jun 2026', { as: 'date', text: '2026-06-04' }]).example).toBeNull();
  });

  it('whatever day is written in a known order is read as that day', () => {
    const day = fc.date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true });
    const two = (value: number) => String(value).padStart(2, '0');
    fc.assert(
      fc.property(
        day,
        fc.constantFrom<DateOrder>('day first', 'month first', 'year first'),
        fc.constantFrom('.', '/', '-'),
        fc.boolean(),
        (date, order, mark, isPadded) => {
          const [y, m, d] = [date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate()];
          const part = (value: number) => (isPadded ? two(value) : String(value));
          const parts =
            order === 'day first'
              ? [part(d), part(m), y]
              : order === 'month first'
                ? [part(m), part(d), y]
                : [y, part(m), part(d)];
          expect(readDate(parts.join(mark), order)?.day).toBe(`${y}-${two(m)}-${two(d)}`);
        },
      ),
    );
  });

  it('eight digits, numbers and words are not taken for dates by themselves', () => {
    for (const text of ['20260614', '1.5', '12.50', 'run 3', '3-4']) expect(isDateLike(text)).toBe(false);
  });
});
