import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { horizonDate } from './date.ts';
import { horizonNamed, horizonsBetween, writtenEvent } from './find.ts';
import type { Horizon } from './table.ts';

const source =
  'eVolv2k v2.1, Toohey & Sigl 2017, doi:10.5194/essd-9-809-2017 (file read); depositions as each horizon says';

const line = (one: Horizon): string =>
  [`${one.name}: ${one.deposition.words}`, one.remark].filter((part) => part !== null).join('. ');

const horizonRelation = relation({
  name: 'horizon',
  title: 'A dated horizon by its name',
  page: 'horizons',
  source,
  takes: {
    name: {
      kind: 'text',
      symbol: '',
      what: 'name of the horizon, or the part of it that no other has',
      example: 'Laki',
    },
  },
  gives: {
    name: { symbol: '', what: 'name', unit: '' },
    event: { symbol: '', what: 'date of the event, as far as it is known', unit: '' },
    eventSource: { symbol: '', what: 'where the date is from', unit: '' },
    sulphur: { symbol: 'VSSI', what: 'sulphur brought into the stratosphere', unit: 'Tg' },
    from: { symbol: '', what: 'deposition from, year CE', unit: '1' },
    to: { symbol: '', what: 'deposition to, year CE', unit: '1' },
    year: { symbol: 'y', what: 'middle of the years of deposition, decimal year CE', unit: '1' },
    deposition: { symbol: '', what: 'deposition on Arctic ice', unit: '' },
    depositionSource: { symbol: '', what: 'where that is from', unit: '' },
    remark: { symbol: '', what: 'what must not be concluded', unit: '' },
  },
  compute: ({ name }) => {
    const one = horizonNamed(name);
    return {
      name: one.name,
      event: writtenEvent(one.event),
      eventSource: `${one.event.source} (${one.event.seen})`,
      sulphur: one.sulphur?.value ?? null,
      from: one.deposition.from,
      to: one.deposition.to,
      year: horizonDate(one).year,
      deposition: one.deposition.words,
      depositionSource: `${one.deposition.source} (${one.deposition.seen})`,
      remark: one.remark,
    };
  },
  own: ({ name }) => {
    const one = horizonNamed(name);
    const year = horizonDate(one).sd;
    return one.sulphur === null ? { year } : { year, sulphur: one.sulphur.sd };
  },
});

const year = (what: string, symbol: string) =>
  numberTaken(symbol, what, '1', [1, 2100], 'the table holds years CE');

const horizonsRelation = relation({
  name: 'horizons',
  title: 'Dated horizons between two years',
  page: 'horizons',
  source,
  takes: {
    from: year('earlier year CE', ''),
    to: year('later year CE', ''),
    kind: {
      kind: 'choice',
      symbol: '',
      what: 'which kind',
      options: ['all', 'volcanic', 'weapon tests', 'reactor'],
    },
  },
  gives: {
    count: { symbol: 'n', what: 'how many', unit: '1' },
    horizons: { symbol: '', what: 'the horizons, the youngest first', unit: '' },
  },
  compute: ({ from, to, kind }) => {
    const found = horizonsBetween(from, to, kind === 'all' ? undefined : kind);
    return { count: found.length, horizons: found.map(line).join('\n') };
  },
});

export const horizonRelations: readonly Relation[] = [horizonRelation, horizonsRelation];
