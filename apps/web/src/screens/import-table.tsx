import { type Kind, kinds } from '@firnbook/campaign';
import type { ImportMapping } from '@firnbook/exchange/sheets';
import { useId } from 'react';
import {
  fieldsFor,
  keyOfUse,
  readUse,
  unfilled,
  unitsFor,
  usesOf,
  withColumn,
  withSource,
  withTable,
  withUse,
} from '../import/change-mapping.ts';
import type { ShownColumn, ShownTable, Wish } from '../import/task.ts';
import { fieldName, fieldWords, kindName, wordName } from '../texts/names.ts';
import { t } from '../texts/t.ts';
import { columnName, tableName } from './import-words.ts';

interface TableProps {
  readonly table: ShownTable;
  readonly index: number;
  readonly mapping: ImportMapping;
  readonly remembered: boolean;
  /** Kinds that rows can be. */
  readonly onChange: (mapping: ImportMapping, take?: Wish['take']) => void;
}

/** Kinds that are begun by hand, or that the book makes itself. */
const byHand = ['campaign', 'device', 'hole', 'import', 'photograph', 'depth settings', 'depth version'];
const importable = kinds.filter(({ kind }) => !byHand.includes(kind));

/** One table of the file: what its rows are, and what each column means. */
export function ImportTable({ table, index, mapping, remembered, onChange }: TableProps) {
  const id = useId();
  const mapped = mapping.tables[index]!;
  const is = mapped.things.map(({ kind }) => kind).join(' ');
  const take = (kind: string) => {
    if (kind === '')
      onChange(
        withTable(mapping, index, (old) => ({ ...old, things: [], day: null, time: null, hole: null })),
      );
    else onChange(mapping, { table: index, kind });
  };
  return (
    <section className="import-table" aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>
        {tableName(table)} <small>{t('import.table.rows', { count: table.rows })}</small>
      </h3>
      {table.isHidden ? <p className="quiet">{t('import.table.hidden')}</p> : null}
      {remembered ? <p className="quiet">{t('import.table.remembered')}</p> : null}
      <div className="import-is">
        <label htmlFor={`${id}-is`}>{t('import.table.is')}</label>
        <select id={`${id}-is`} value={is} onChange={(event) => take(event.target.value)}>
          <option value="">{t('import.table.out')}</option>
          {mapped.things.length > 1 ? (
            <option value={is}>{mapped.things.map(({ kind }) => kindName(kind)).join(' + ')}</option>
          ) : null}
          {importable.map(({ kind }) => (
            <option key={kind} value={kind}>
              {kindName(kind)}
            </option>
          ))}
        </select>
      </div>
      {mapped.things.length === 0 ? (
        <p className="quiet">{table.columns.map(columnName).join(' · ')}</p>
      ) : (
        <>
          <h4>{t('import.columns')}</h4>
          <ul className="import-columns">
            {table.columns.map((column, at) => (
              <Column
                // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place in the table.
                key={at}
                column={column}
                at={at}
                {...{ table, index, mapping, remembered, onChange }}
              />
            ))}
          </ul>
          <Unfilled {...{ table, index, mapping, remembered, onChange }} />
        </>
      )}
    </section>
  );
}

function Column(props: TableProps & { readonly column: ShownColumn; readonly at: number }) {
  const { column, at, index, mapping, onChange } = props;
  const id = useId();
  const mapped = mapping.tables[index]!;
  const change = (next: typeof mapped) => onChange(withTable(mapping, index, () => next));
  const uses = usesOf(mapped, kinds, at);
  const [first, ...also] = uses;
  const units = unitsFor(mapped, kinds, at);
  const reading = mapped.columns[at];
  const unit = reading?.unit ?? column.unit ?? '';
  const name = columnName(column);
  const words = ({ of, field }: (typeof uses)[number]) =>
    of === 'row' ? t(`import.use.${field as 'day'}`) : `${kindName(of)}: ${fieldWords(of, field)}`;
  return (
    <li className={first === undefined ? 'unused' : undefined}>
      <p className="import-column">
        <b>
          <span className="place">{column.place}</span> {name}
        </b>
        <small className="samples num">{column.samples.join(' · ')}</small>
      </p>
      <div className="import-use">
        <label className="hidden" htmlFor={`${id}-use`}>
          {t('import.column.means', { column: name })}
        </label>
        <select
          id={`${id}-use`}
          data-column={column.place}
          value={first === undefined ? '' : keyOfUse(first)}
          onChange={(event) => change(withUse(mapped, kinds, at, readUse(event.target.value)))}
        >
          <option value="">{t('import.use.none')}</option>
          {fieldsFor(mapped, kinds).map(({ kind, fields }) => (
            <optgroup key={kind.kind} label={kindName(kind.kind)}>
              {fields.map((field) => (
                <option key={field.name} value={keyOfUse({ of: kind.kind, field: field.name })}>
                  {fieldName(kind.kind, field.name)}
                </option>
              ))}
            </optgroup>
          ))}
          <optgroup label={t('import.use.row')}>
            {(['day', 'time', 'hole'] as const).map((field) => (
              <option key={field} value={keyOfUse({ of: 'row', field })}>
                {t(`import.use.${field}`)}
              </option>
            ))}
          </optgroup>
        </select>
        {also.length > 0 ? (
          <small className="quiet">{t('import.use.also', { uses: also.map(words).join(', ') })}</small>
        ) : null}
      </div>
      {units.length > 0 ? (
        <div className="import-unit">
          <label className="hidden" htmlFor={`${id}-unit`}>
            {t('import.column.unit', { column: name })}
          </label>
          <select
            id={`${id}-unit`}
            value={unit}
            onChange={(event) =>
              change(
                withColumn(mapped, at, { unit: event.target.value === '' ? undefined : event.target.value }),
              )
            }
          >
            <option value="">{t('import.unit.said')}</option>
            {[...new Set([...units, ...(unit === '' ? [] : [unit])])].map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
        </div>
      ) : null}
      {first !== undefined && column.hasBlanks ? (
        <label className="import-blanks">
          <input
            type="checkbox"
            checked={reading?.blanks === 'as above'}
            onChange={(event) =>
              change(withColumn(mapped, at, { blanks: event.target.checked ? 'as above' : undefined }))
            }
          />{' '}
          {t('import.blanks')}
        </label>
      ) : null}
    </li>
  );
}

/** What stands in for a column that is not there; what is still needed asks for a person. */
function Unfilled({ index, mapping, onChange }: TableProps) {
  const mapped = mapping.tables[index]!;
  const list = unfilled(mapped, kinds);
  if (list.length === 0) return null;
  return (
    <>
      <h4>{t('import.unfilled')}</h4>
      <ul className="import-columns">
        {list.map(({ kind, field, source }) => {
          const use = { of: kind.kind, field: field.name };
          const say = (value: string) => {
            const next =
              value === ''
                ? null
                : value === '#'
                  ? ({ from: 'order' } as const)
                  : ({ from: 'text', text: value } as const);
            onChange(withTable(mapping, index, (old) => withSource(old, kinds, use, next)));
          };
          const value = source === null ? '' : source.from === 'text' ? source.text : '#';
          const choices = choicesFor(kind, field.name, value);
          return (
            <li key={keyOfUse(use)}>
              <p className="import-column">
                <b>
                  {kindName(kind.kind)}: {fieldWords(kind.kind, field.name)}
                </b>
              </p>
              {choices.length === 0 ? (
                <p className="call">
                  {t('import.unfilled.needed', {
                    kind: kindName(kind.kind),
                    field: fieldWords(kind.kind, field.name),
                  })}
                </p>
              ) : (
                <select
                  aria-label={`${kindName(kind.kind)}: ${fieldWords(kind.kind, field.name)}`}
                  value={value}
                  onChange={(event) => say(event.target.value)}
                >
                  <option value="">{t('import.unfilled.nothing')}</option>
                  {choices.map(({ key, label }) => (
                    <option key={key} value={key}>
                      {label}
                    </option>
                  ))}
                </select>
              )}
            </li>
          );
        })}
      </ul>
    </>
  );
}

function choicesFor(
  kind: Kind,
  name: string,
  now: string,
): readonly { readonly key: string; readonly label: string }[] {
  const field = kind.fields.find((one) => one.name === name);
  if (field?.quantity === 'word')
    return field.words.map((word) => ({ key: word, label: wordName(kind.kind, name, word) }));
  if (field?.quantity === 'count') return [{ key: '#', label: t('import.unfilled.counted') }];
  return now === '' ? [] : [{ key: now, label: now }];
}
