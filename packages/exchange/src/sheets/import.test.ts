import { createBook, kinds, sayEnglish } from '@firnbook/campaign';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ceredin, type TestBook } from './book.suite.ts';
import { cellPlaceInWords } from './cells.ts';
import { commandsOf, decideImport } from './commands.ts';
import type { ImportMapping } from './mapping.ts';
import { type Preview, previewImport } from './preview.ts';
import { proposeMapping } from './propose.ts';
import { readSheets } from './read-sheets.ts';
import { rememberedMappings } from './remember.ts';
import type { ReadSheets } from './tables.ts';
import { rawRow, rawWorkbook } from './workbook.suite.ts';

// All files here are invented.
const sha256 = 'a'.repeat(64);
const utf8 = (text: string) => new TextEncoder().encode(text);

interface Looked {
  readonly read: ReadSheets;
  readonly mapping: ImportMapping;
  readonly notes: readonly string[];
  readonly remembered: readonly number[];
  readonly preview: Preview;
}

const look = (
  book: TestBook,
  file: string | Uint8Array,
  change: (mapping: ImportMapping, read: ReadSheets) => ImportMapping = (mapping) => mapping,
  more: { readonly correct?: string; readonly name?: string; readonly sheet?: string } = {},
): Looked => {
  const read = readSheets(typeof file === 'string' ? utf8(file) : file, more.name ?? 'core-log.csv');
  const {
    notes,
    remembered,
    mapping: proposed,
  } = proposeMapping(read, kinds, rememberedMappings(book.entries), more.sheet ?? null);
  const mapping = change({ ...proposed, offset: proposed.offset ?? '+05:45' }, read);
  const preview = previewImport({
    read,
    mapping,
    kinds,
    entries: book.entries,
    hole: book.hole,
    by: book.me,
    correct: more.correct ?? null,
  });
  return { read, mapping, notes, remembered, preview };
};

const write = (book: TestBook, { preview, read, mapping }: Looked): number => {
  const commands = commandsOf(preview, read, mapping, sha256, book.hole);
  const context = { by: book.me, observedAt: '2026-06-20T10:00:00+05:45', newId: book.newId };
  const decided = decideImport(book.entries, commands, context);
  if (!decided.ok) throw new Error(JSON.stringify(decided));
  if (decided.drafts.length > 0) book.write(decided.drafts);
  return decided.drafts.length;
};

const counts = ({ rows }: Preview) => {
  const found: Record<string, number> = {};
  for (const { kind, status } of rows) {
    const key = `${kind} ${status}`;
    found[key] = (found[key] ?? 0) + 1;
  }
  return found;
};
const unread = ({ unread: list }: Preview) =>
  list.map(({ place, what }) => `${cellPlaceInWords(place)}: ${what}`);
const day = (mapping: ImportMapping): ImportMapping => ({ ...mapping, givenDay: '2026-06-14' });

const runs = 'Date;Run;From (m);To (m)\n12.06.2026;1;0,00;0,98\n13.06.2026;2;0,98;1,95\n';
const pieces = 'Run,Piece,Length (cm),Break above\n1,1,95.2,unsure\n2,1,53.1,fits\n2,2,42.8,lost ice\n';

describe('what the columns mean is proposed', () => {
  it('for runs, with when they were seen', () => {
    const { mapping, preview } = look(ceredin(), runs);
    expect(mapping.tables[0].things.map(({ kind, fields }) => [kind, Object.keys(fields)])).toEqual([
      ['run', ['number', 'from', 'to']],
    ]);
    expect(preview.rows.map(({ number, readings, at }) => [number, readings, at])).toEqual([
      ['1', { number: '1', from: '0,00 m', to: '0,98 m' }, '2026-06-12T12:00:00+05:45'],
      ['2', { number: '2', from: '0,98 m', to: '1,95 m' }, '2026-06-13T12:00:00+05:45'],
    ]);
    expect(preview.remarks).toEqual(['2 rows give a day without a time: 12:00 is taken.']);
  });

  it('for pieces, with the words of breaks that crews write', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const { preview } = look(book, pieces, day);
    expect(preview.rows.map(({ number, readings }) => [number, readings.topBreak])).toEqual([
      ['1.1', 'unsure'],
      ['2.1', 'fits'],
      ['2.2', 'loss'],
    ]);
    expect(preview.unread).toEqual([]);
  });

  it('for a log that carries the runs’ depths in the rows of their pieces: each run once', () => {
    const { preview } = look(
      ceredin(),
      'Run;From (m);To (m);Piece;Length (mm);Fit\n1;0,00;0,98;1;952;unsure\n2;0,98;1,95;1;531;fits\n2;0,98;1,95;2;428;fits\n',
      day,
    );
    expect(counts(preview)).toEqual({ 'run new': 2, 'piece new': 3 });
    expect(preview.rows.find(({ number }) => number === '2.2')?.readings.length).toBe('428 mm');
  });

  it('for soundings, cable checks and weather, by the campaign’s own table of kinds', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const { preview } = look(
      book,
      'Soundings\nafter run;hole depth (m);sd (cm)\n2;1,96;2\n\nWeather\nTime;Temperature (°C);Wind (m/s);Sky\n08:00;-21,5;4;clear\n',
      day,
    );
    expect(preview.rows.map(({ kind, readings }) => [kind, readings])).toEqual([
      ['weather', { temperature: '-21,5 °C', wind: '4 m/s', sky: 'clear' }],
      ['sounding', { afterRun: '2', depth: '1,96 m', sd: '2 cm' }],
    ]);
    expect(preview.rows[0].at).toBe('2026-06-14T08:00:00+05:45');
  });

  it('the unit that the figures are usual in is taken where the heading names none, and said', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const { notes, preview } = look(book, 'Run;Piece;Length;Break\n1;1;0,952;unsure\n2;1;0,001;fits\n', day);
    expect(notes).toEqual([]);
    expect(preview.questions.map(({ about, choices }) => [about, choices.map(({ label }) => label)])).toEqual(
      [['unit', ['cm', 'm', 'mm']]],
    );
    const clear = look(book, 'Run;Piece;Length;Break\n1;1;1405;unsure\n2;1;912;fits\n', day);
    expect(clear.preview.questions).toEqual([]);
    expect(clear.notes).toEqual([
      'the file: the heading "Length" names no unit; mm is taken, in which its figures are usual.',
    ]);
    expect(clear.preview.rows[0].readings.length).toBe('1405 mm');
  });

  it('pieces without a number are counted in each run, breaks without a column are unsure, and both are said', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const { preview, notes } = look(book, 'Run;Length (cm)\n1;95,2\n2;53,1\n2;42,8\n', day);
    expect(preview.rows.map(({ number, readings }) => [number, readings.topBreak])).toEqual([
      ['1.1', 'unsure'],
      ['2.1', 'unsure'],
      ['2.2', 'unsure'],
    ]);
    expect(notes).toEqual([
      'the file: no column numbers the piece; they are counted in the order of the rows.',
      'the file: no column gives the topBreak of a piece; "unsure" is taken for every row.',
    ]);
  });

  it('rows of other holes are left out, hidden sheets unless they are named', () => {
    const { preview } = look(
      ceredin(),
      'Hole;Run;From (m);To (m)\nA;1;0,00;0,9\nB;1;0,00;0,98\nCER-B;2;0,98;1,95\n',
      day,
    );
    expect(counts(preview)).toEqual({ 'run new': 2 });
    expect(preview.remarks[0]).toBe('1 row of other holes than CER-B left out.');
    const sheet = rawRow(1, ['Run', 'From (m)', 'To (m)']) + rawRow(2, [1, 0, 0.98]);
    const bytes = rawWorkbook([{ name: 'Old', rows: sheet, state: 'hidden' }]);
    const hidden = look(ceredin(), bytes, day, { name: 'log.xlsx' });
    expect(hidden.notes).toEqual(['Sheet Old is hidden: it is left out unless you name it.']);
    expect(hidden.preview.rows).toEqual([]);
    expect(counts(look(ceredin(), bytes, day, { name: 'log.xlsx', sheet: 'old' }).preview)).toEqual({
      'run new': 1,
    });
  });

  it('a merged run counts for its pieces, a merged mass for none but the first', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const rows =
      rawRow(1, ['Run', 'Piece', 'Length (cm)', 'Break', 'Mass (g)']) +
      rawRow(2, [2, 1, 53.1, 'fits', 5211]) +
      rawRow(3, [null, 2, 42.8, 'fits', null]);
    const after = '<mergeCells><mergeCell ref="A2:A3"/><mergeCell ref="E2:E3"/></mergeCells>';
    const { preview } = look(book, rawWorkbook([{ name: 'Log', rows, after }]), day, { name: 'log.xlsx' });
    expect(preview.rows.map(({ number, readings }) => [number, readings.mass])).toEqual([
      ['2.1', '5211 g'],
      ['2.2', undefined],
    ]);
  });
});

describe('what is not proved is asked, and nothing is written before', () => {
  it.each([
    ['the order of dates', 'Date;Run;To (m)\n01/06/2026;1;0,98\n02/06/2026;2;1,95\n', 'dates'],
    ['thousands or decimals', 'Date,Run,To (m)\n2026-06-01,1,"1,234"\n2026-06-01,2,"2,345"\n', 'mark'],
  ])('%s', (_, file, about) => {
    const book = ceredin();
    const looked = look(book, file);
    expect(looked.preview.questions.map((question) => question.about)).toEqual([about]);
    expect(commandsOf(looked.preview, looked.read, looked.mapping, sha256, book.hole)).toEqual([]);
    const [question] = looked.preview.questions;
    const [first, second] = question.choices.map((choice) => look(book, file, () => choice.mapping).preview);
    expect(first.questions).toEqual([]);
    expect(first.rows.map(({ readings, at }) => [readings, at])).not.toEqual(
      second.rows.map(({ readings, at }) => [readings, at]),
    );
  });

  it('the clock and the day', () => {
    const book = ceredin();
    const { preview } = look(book, 'Run;From (m);To (m)\n1;0,00;0,98\n', (mapping) => ({
      ...mapping,
      offset: null,
    }));
    expect(preview.questions.map(({ about }) => about)).toEqual(['day', 'offset']);
    expect(counts(preview)).toEqual({ 'run new': 1 });
  });

  it('which of several sheets with runs belong to the hole', () => {
    const sheet = (name: string, bottom: number) => ({
      name,
      rows: rawRow(1, ['Run', 'From (m)', 'To (m)']) + rawRow(2, [1, 0, bottom]),
    });
    const bytes = rawWorkbook([sheet('CER-A', 0.91), sheet('CER-B', 0.98)]);
    const { preview } = look(ceredin(), bytes, day, { name: 'log.xlsx' });
    const [question] = preview.questions;
    expect(question).toMatchObject({ about: 'sheets' });
    expect(question.choices.map(({ label }) => label)).toEqual(['CER-A', 'CER-B', 'all of them']);
    const second = look(ceredin(), bytes, () => question.choices[1].mapping, { name: 'log.xlsx' });
    expect(second.preview.questions).toEqual([]);
    expect(second.preview.rows.map(({ readings }) => readings.to)).toEqual(['0.98 m']);
    const named = look(ceredin(), bytes, day, { name: 'log.xlsx', sheet: 'CER-B' });
    expect(named.preview.rows).toHaveLength(1);
  });

  it('an offset in the cells themselves needs no other', () => {
    const { preview } = look(
      ceredin(),
      'When seen;Date;Run;To (m)\nx;2026-06-12T09:10+05:45;1;0,98\n',
      (mapping) => ({ ...mapping, offset: null }),
    );
    expect(preview.questions).toEqual([]);
    expect(preview.rows[0].at).toBe('2026-06-12T09:10:00+05:45');
  });
});

describe('rows that cannot be read', () => {
  it('are named with sheet, row and column, and held back whole', () => {
    const rows =
      rawRow(1, ['Run', 'From (m)', 'To (m)', 'Recovered']) +
      rawRow(2, ['1', 0, 0.98, 'core']) +
      rawRow(3, ['two', 0.98, 1.95, 'core']) +
      rawRow(4, ['3', '1.95?', 2.93, 'core']) +
      rawRow(5, ['4', 2.93, { xml: '<c r="R" t="e"><v>#REF!</v></c>' }, 'core']) +
      rawRow(6, ['5', 3.9, { xml: '<c r="R" s="1"><v>46187</v></c>' }, 'core']) +
      rawRow(7, ['6', 4.8, '<5.9', 'core']) +
      rawRow(8, ['7', 5.9, 6.8, 'perhaps']) +
      rawRow(9, [null, 6.8, 7.7, 'core']) +
      rawRow(10, ['Total', null, 7.7, null]);
    const { preview } = look(ceredin(), rawWorkbook([{ name: 'Runs', rows }]), day, { name: 'log.xlsx' });
    expect(preview.rows.map(({ number }) => number)).toEqual(['1']);
    expect(unread(preview)).toEqual([
      'sheet Runs, row 3, column A (Run): "two" is not a whole number from 1 on',
      'sheet Runs, row 4, column B (From (m)): "1.95?" is no number',
      'sheet Runs, row 5, column C (To (m)): the cell holds the error #REF!',
      'sheet Runs, row 6, column C (To (m)): a spreadsheet program has made a date of it: 2026-06-14',
      'sheet Runs, row 7, column C (To (m)): "<5.9" is a limit, not a reading',
      'sheet Runs, row 8, column D (Recovered): "perhaps" is not a word for this',
      'sheet Runs, row 9, column A (Run): the cell is blank, and a run needs it',
      'sheet Runs, row 10, column A (Run): "Total" is not a whole number from 1 on',
    ]);
  });

  it('a formula without a value is named once, with its heading where its row is held back for it', () => {
    const formula = { xml: '<c r="R"><f>SUM(C1:C9)</f></c>' };
    const rows =
      rawRow(1, ['Run', 'From (m)', 'To (m)', 'Checked']) +
      rawRow(2, [1, 0, formula, null]) +
      rawRow(3, [2, 0.98, 1.95, formula]);
    const { preview } = look(ceredin(), rawWorkbook([{ name: 'Runs', rows }]), day, { name: 'log.xlsx' });
    expect(unread(preview)).toEqual([
      'sheet Runs, row 3, column D: the formula holds no value',
      'sheet Runs, row 2, column C (To (m)): the formula holds no value',
    ]);
  });

  it('a number that is there twice with other readings is named, the first counts', () => {
    const { preview } = look(ceredin(), 'Run;From (m);To (m)\n1;0,00;0,98\n1;0,98;1,95\n', day);
    expect(counts(preview)).toEqual({ 'run new': 1 });
    expect(unread(preview)).toEqual([
      'line 3: run 1 is there already, in line 2, with another from (0,00 m, here 0,98 m)',
    ]);
  });

  it('a piece of a run that is nowhere is refused by the book itself', () => {
    const { preview } = look(ceredin(), pieces, day);
    expect(counts(preview)).toEqual({ 'piece refused': 3 });
    expect(unread(preview)[0]).toMatch(/^line 2: .*"1"/);
  });

  it('blank rows are passed over, and blanks that mean the cell above are filled once a person says so', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const file = 'Run;Piece;Length (cm);Break\n1;1;95,2;unsure\n;;;\n2;1;53,1;fits\n;2;42,8;fits\n';
    expect(unread(look(book, file, day).preview)).toEqual([
      'line 5, column 1 (Run): the cell is blank, and a piece needs it',
    ]);
    const filled = look(book, file, (mapping) => ({
      ...day(mapping),
      tables: mapping.tables.map((table) => ({ ...table, columns: { 0: { blanks: 'as above' as const } } })),
    }));
    expect(filled.preview.rows.map(({ number }) => number)).toEqual(['1.1', '2.1', '2.2']);
  });
});

describe('the campaign’s own doubts are told in the preview', () => {
  it('as if the rows were logged one after the other', () => {
    const { preview } = look(ceredin(), 'Run;From (m);To (m)\n1;0,00;0,98\n2;0,98;11,95\n4;2,93;3,90\n', day);
    const doubts = preview.rows.flatMap((row) =>
      row.doubts.map(({ what }) => `${row.number}: ${sayEnglish(what)}`),
    );
    expect(doubts).toHaveLength(3);
    expect(doubts[0]).toMatch(/^2: .*more than a barrel holds/);
    expect(doubts[1]).toMatch(/^4: The last run was 2, this one is 4/);
    expect(doubts[2]).toMatch(/^4: .* above that/);
  });

  it('and so is whether depth intervals and lengths close', () => {
    const { preview } = look(
      ceredin(),
      'Run;From (m);To (m);Length (cm)\n1;0,00;0,98;98\n2;0,98;1,95;92\n3;1,99;2,93;94\n',
      day,
    );
    expect(preview.closures).toHaveLength(1);
    const { checked } = preview.closures[0];
    expect(checked.closure.misfits.map(({ what, row }) => [what, checked.lines[row]])).toEqual([
      ['length', 3],
      ['gap', 4],
    ]);
  });
});

describe('importing again', () => {
  it('the same file adds nothing, to the last entry', () => {
    const book = ceredin();
    expect(write(book, look(book, runs))).toBe(3);
    const before = book.entries.length;
    const again = look(book, runs);
    expect(counts(again.preview)).toEqual({ 'run same': 2 });
    expect(write(book, again)).toBe(0);
    expect(book.entries).toHaveLength(before);
  });

  it('the same table in another dialect adds nothing either', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const other = 'to_cm,RUN,from_cm,date\n98.0,1,0,2026-06-12\n195.0,2,98,2026-06-13\n';
    expect(counts(look(book, other, (mapping) => mapping, { name: 'other.csv' }).preview)).toEqual({
      'run same': 2,
    });
  });

  it('a file with ten more rows adds ten', () => {
    const book = ceredin();
    write(book, look(book, runs));
    let longer = runs;
    for (let run = 3; run <= 12; run++)
      longer += `14.06.2026;${run};${(run * 0.97 - 0.99).toFixed(2).replace('.', ',')};${(run * 0.97 - 0.02).toFixed(2).replace('.', ',')}\n`;
    const more = look(book, longer);
    expect(counts(more.preview)).toEqual({ 'run same': 2, 'run new': 10 });
    expect(write(book, more)).toBe(11);
    expect(book.book.holeView(book.hole)?.runs).toHaveLength(12);
  });

  it('rows without a number of their own are counted: the same sounding twice is two, and stays two', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const soundings = 'after run;hole depth (m)\n2;1,96\n2;1,96\n2;1,97\n';
    expect(write(book, look(book, soundings, day))).toBe(4);
    expect(write(book, look(book, soundings, day))).toBe(0);
    expect(write(book, look(book, `${soundings}2;1,96\n`, day))).toBe(2);
  });

  it('the same weather on another day is another report', () => {
    const book = ceredin();
    const weather = (date: string) => `Weather\nDate;Time;Temperature (°C);Sky\n${date};08:00;-21,5;clear\n`;
    expect(write(book, look(book, weather('2026-06-12')))).toBe(2);
    expect(write(book, look(book, weather('2026-06-12')))).toBe(0);
    expect(write(book, look(book, weather('2026-06-13')))).toBe(2);
  });

  it('a hole named in a row is that hole again', () => {
    const book = ceredin();
    const diary = 'Source;Hole;Began;Note\ngenerator;B;2026-06-12 08:00;near the trench\n';
    const first = look(book, diary, day);
    expect(counts(first.preview)).toEqual({ 'contamination new': 1 });
    write(book, first);
    expect(counts(look(book, diary, day).preview)).toEqual({ 'contamination same': 1 });
  });

  it('readings that were not there before are added to the same run', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const more = look(book, 'Run;To (m);Chips (kg);Recovered\n1;0,98;2,1;core\n2;1,95;2,3;nothing\n', day);
    expect(counts(more.preview)).toEqual({ 'run more': 2 });
    write(book, more);
    const [first] = book.book.holeView(book.hole)!.runs;
    expect(first.readings.chips.value).toBeCloseTo(2.1, 12);
    expect(look(book, runs).preview.rows.map(({ status }) => status)).toEqual(['same', 'same']);
  });

  it('a row that changed is shown, and corrected where a person says why', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const changed = runs.replace('1,95', '1,96');
    const shown = look(book, changed);
    expect(counts(shown.preview)).toEqual({ 'run same': 1, 'run changed': 1 });
    expect(shown.preview.rows[1].differences).toEqual([{ field: 'to', there: '1,95 m', here: '1,96 m' }]);
    expect(write(book, shown)).toBe(0);
    expect(
      write(
        book,
        look(book, changed, (mapping) => mapping, { correct: 'read again' }),
      ),
    ).toBe(2);
    const run = book.book.holeView(book.hole)!.runs[1];
    expect(run.readings.to).toMatchObject({ text: '1,96 m', struck: [{ text: '1,95 m' }] });
    expect(run.readings.from.struck).toEqual([]);
    // the older file says what was struck since: it does not come back
    expect(counts(look(book, runs).preview)).toEqual({ 'run same': 2 });
  });

  it('a changed sounding is corrected too, and not logged a second time', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const soundings = 'after run;hole depth (m)\n1;0,99\n2;1,96\n';
    write(book, look(book, soundings, day));
    const changed = look(book, soundings.replace('1,96', '1,94'), day, { correct: 'tape read again' });
    expect(counts(changed.preview)).toEqual({ 'sounding same': 1, 'sounding changed': 1 });
    write(book, changed);
    expect(book.book.holeView(book.hole)?.soundings).toHaveLength(2);
  });

  it('what somebody else logged otherwise is shown and left alone', () => {
    const book = ceredin();
    book.log('run', { number: '1', from: '0,00', to: '0,97' });
    const { preview } = look(book, runs, (mapping) => mapping, { correct: 'typed wrong' });
    expect(counts(preview)).toEqual({ 'run differs': 1, 'run new': 1 });
    expect(preview.rows[0].command).toBeNull();
  });

  it('what was withdrawn or corrected by hand since is not brought back', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const [first, second] = book.book.holeView(book.hole)!.runs;
    book.correct(first.id, { to: '0,99' }, 'read again');
    book.withdraw(second.id);
    expect(counts(look(book, runs).preview)).toEqual({ 'run same': 1, 'run withdrawn': 1 });
  });
});

describe('what is kept of an import', () => {
  it('is the file’s name and digest, the confirmed mapping and the reader; its rows name it and their place', () => {
    const book = ceredin();
    const before = book.entries.length;
    write(book, look(book, runs));
    const [log, first] = book.entries.slice(before);
    expect(log.header.kind).toBe('import.logged');
    expect(log.body?.readings).toMatchObject({ file: 'core-log.csv', bytes: sha256, parser: 'sheets 1' });
    expect(first.body?.import).toEqual({ entry: log.header.id, row: 2 });
    expect(first.header.observedAt).toBe('2026-06-12T12:00:00+05:45');
  });

  it('an older build reads the rows all the same: what it does not know in a body it keeps', () => {
    const book = ceredin();
    write(book, look(book, runs));
    const view = book.book.holeView(book.hole)!;
    expect(view.notUnderstood).toBe(0);
    expect(view.runs.map(({ name }) => name)).toEqual(['B-R001', 'B-R002']);
  });

  it('the mapping of a layout is remembered, whatever the order of its columns, with what was answered', () => {
    const book = ceredin();
    const odd = 'Tag;Nr;Oben;Unten\n01/06/2026;1;0,00;0,98\n02/06/2026;2;0,98;1,95\n';
    const answered = (mapping: ImportMapping): ImportMapping => ({
      ...mapping,
      tables: [
        {
          things: [
            {
              kind: 'run',
              fields: {
                number: { from: 'column', column: 1 },
                from: { from: 'column', column: 2 },
                to: { from: 'column', column: 3 },
              },
            },
          ],
          columns: { 0: { dates: 'day first' }, 2: { unit: 'm' }, 3: { unit: 'm' } },
          day: 0,
          time: null,
          hole: null,
        },
      ],
    });
    write(book, look(book, odd, answered));
    const next = look(book, 'Unten;Oben;Tag;Nr;Neu\n2,93;1,95;03/06/2026;3;x\n', (mapping) => mapping, {
      name: 'june.csv',
    });
    expect(next.remembered).toEqual([0]);
    expect(next.preview.questions).toEqual([]);
    expect(next.preview.rows.map(({ readings, at }) => [readings, at])).toEqual([
      [{ number: '3', from: '1,95 m', to: '2,93 m' }, '2026-06-03T12:00:00+05:45'],
    ]);
    const other = look(book, 'Unten;Oben;Nr\n3,9;2,93;4\n', day, { name: 'other.csv' });
    expect(other.remembered).toEqual([]);
  });

  it('a mapping that another device wrote wrongly is passed over', () => {
    const book = ceredin();
    for (const mapping of ['{', '[{"sheet":3}]', '[null]', '[{"things":[{"kind":1}]}]', '"x"']) {
      const readings = { file: 'a', bytes: sha256, parser: 'p', mapping };
      book.log('import', readings);
    }
    expect(rememberedMappings(book.entries)).toEqual([]);
  });

  it('headings called like parts of the language are remembered like others', () => {
    const book = ceredin();
    const file = '__proto__;constructor;Date\n1;0,98;2026-06-12\n';
    const mapped = (mapping: ImportMapping): ImportMapping => ({
      ...mapping,
      tables: [
        {
          things: [
            {
              kind: 'run',
              fields: { number: { from: 'column', column: 0 }, to: { from: 'column', column: 1 } },
            },
          ],
          columns: { 1: { unit: 'm' } },
          day: 2,
          time: null,
          hole: null,
        },
      ],
    });
    expect(write(book, look(book, file, mapped))).toBe(2);
    const again = look(book, file);
    expect(again.remembered).toEqual([0]);
    expect(counts(again.preview)).toEqual({ 'run same': 1 });
  });
});

it('a book folded anew from what imports wrote is the same book (J1)', () => {
  const book = ceredin();
  write(book, look(book, runs));
  write(book, look(book, pieces, day, { name: 'pieces.csv' }));
  const other = createBook();
  other.add([...book.entries].reverse());
  expect(other.view()).toEqual(book.book.view());
});

it('whatever a table of trade words holds: it is previewed, what is previewed is written, and again adds nothing', () => {
  const headings = {
    Run: fc.integer({ min: 0, max: 4 }).map(String),
    Piece: fc.constantFrom('1', '2', '3', '', 'x'),
    'From (m)': fc.constantFrom('0,00', '0.98', '1,95', '', '-', '1,234', '12 345'),
    'To (m)': fc.constantFrom('0,98', '1.95', '2,93', '', '?', '11,95'),
    Length: fc.constantFrom('95,2', '0.95', '', '952', '5x', '<1'),
    Break: fc.constantFrom('fits', 'lost ice', 'unsure', '', 'perhaps'),
    Date: fc.constantFrom('2026-06-12', '12.06.2026', '13.06.2026', '06/13/2026', ''),
    Time: fc.constantFrom('08:30', '', '25:00'),
    'hole depth (m)': fc.constantFrom('0,99', '1,96', ''),
    Note: fc.constantFrom('', 'thin crust', '__proto__'),
    Hole: fc.constantFrom('B', 'CER-B', 'A', ''),
  } as const;
  const names = fc.shuffledSubarray(Object.keys(headings) as (keyof typeof headings)[], { minLength: 2 });
  const file = names.chain((columns) =>
    fc
      .array(fc.tuple(...columns.map((name) => headings[name])), { minLength: 1, maxLength: 8 })
      .map((rows) => [columns, ...rows].map((row) => `${row.join(';')}\n`).join('')),
  );
  fc.assert(
    fc.property(file, (text) => {
      fc.pre(
        text
          .split('\n')
          .slice(1)
          .some((line) => /[^;]/.test(line)),
      );
      const book = ceredin();
      // every question is answered by its first choice
      const answered = (): Looked => {
        let looked = look(book, text, day);
        for (let i = 0; i < 20 && looked.preview.questions[0]?.choices[0] !== undefined; i++) {
          const { mapping } = looked.preview.questions[0].choices[0];
          looked = look(book, text, () => mapping);
        }
        return looked;
      };
      const first = answered();
      const planned = first.preview.rows.filter(({ command }) => command !== null).length;
      expect(write(book, first)).toBe(planned === 0 ? 0 : planned + 1);
      expect(book.book.view().notUnderstood).toBe(0);
      const again = answered();
      expect(again.preview.rows.filter(({ command }) => command !== null)).toEqual([]);
    }),
    { numRuns: 150 },
  );
});
