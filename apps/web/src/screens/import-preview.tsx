import type { CampaignView } from '@firnbook/campaign';
import type { PreviewRow } from '@firnbook/exchange/sheets';
import { type FormEvent, Fragment, type ReactNode, useId, useState } from 'react';
import type { Look, ShownTable, Some } from '../import/task.ts';
import { fieldWords } from '../texts/names.ts';
import { moment } from '../texts/numbers.ts';
import { sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import {
  countLines,
  misfitWords,
  placeWords,
  readingsOf,
  rowName,
  rowPlace,
  tableName,
  wordsOf,
} from './import-words.ts';
import { MethodLink } from './method-link.tsx';

interface PreviewProps {
  readonly look: Look;
  readonly tables: readonly ShownTable[];
  readonly campaign: CampaignView;
}

/** What bringing the file in would do: counts, first rows, what can't be read, what looks odd, what does not close. */
export function ImportPreview(
  props: PreviewProps & {
    readonly correct: string | null;
    readonly onCorrect: (reason: string | null) => void;
  },
) {
  const { look, tables, campaign } = props;
  const counts = countLines(look);
  return (
    <section className="import-preview" aria-labelledby="import-preview">
      <h2 id="import-preview">{t('import.preview')}</h2>
      {counts.length === 0 ? <p>{t('import.count.none')}</p> : null}
      <ul className="import-counts">
        {counts.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <List
        tone="ask"
        title={t('import.unread', { count: look.unread.count })}
        list={look.unread}
        line={(one) => (
          <>
            <b>{placeWords(one)}:</b> {one.what}. {one.mend}
          </>
        )}
      />
      <Changed {...props} />
      <List
        tone="note"
        title={t('import.differs', { count: look.differs.count })}
        list={look.differs}
        line={(row) => <Differences row={row} tables={tables} campaign={campaign} />}
      />
      <List
        tone="ask"
        title={t('import.doubts', { count: look.doubts.count })}
        list={look.doubts}
        line={(row) => (
          <>
            <b>{rowName(row)}</b> ({rowPlace(tables, row)}):{' '}
            {row.doubts.map(({ what }) => sayHere(what)).join(' ')}
          </>
        )}
      />
      {look.closures.map(({ table, misfits }) => {
        const name = tableName(tables[table]!);
        return misfits.count === 0 ? (
          <p key={table} className="note">
            {t('import.closes', { table: name })} <MethodLink page="closure" />
          </p>
        ) : (
          <List
            key={table}
            tone="ask"
            title={t('import.closes.not', { table: name, count: misfits.count })}
            list={misfits}
            line={(misfit) => misfitWords(misfit, tables[table]!)}
          >
            <p className="small">
              <MethodLink page="closure" />
            </p>
          </List>
        );
      })}
      <FirstRows {...props} />
      {look.remarks.length > 0 ? (
        <div className="note">
          <h3>{t('import.remarks')}</h3>
          <ul className="list">
            {look.remarks.map((remark) => (
              <li key={remark} className="quiet">
                {remark}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
    </section>
  );
}

function FirstRows({ look, campaign }: PreviewProps) {
  if (look.rows.length === 0) return null;
  return (
    <div className="note">
      <h3>{t('import.first')}</h3>
      <ol className="import-rows">
        {look.rows.map((row) => (
          <li key={`${row.table} ${row.row} ${row.kind}`}>
            <b>{rowName(row)}</b>{' '}
            {look.questions.length === 0 ? <span className="quiet">{moment(row.at)}</span> : null}
            <span className="readings">
              {readingsOf(row, campaign).map(({ field, face, text }, at) => (
                <Fragment key={field}>
                  {at === 0 ? null : ' · '}
                  <span className="quiet">{field}</span> <span className={face}>{text}</span>
                </Fragment>
              ))}
            </span>
          </li>
        ))}
      </ol>
    </div>
  );
}

function List<T>(props: {
  readonly tone: 'ask' | 'note';
  readonly title: string;
  readonly list: Some<T>;
  readonly line: (one: T) => ReactNode;
  readonly children?: ReactNode;
}) {
  const { tone, title, list, line, children } = props;
  if (list.count === 0) return null;
  const rest = list.count - list.first.length;
  return (
    <div className={`${tone} import-list`}>
      <h3>{title}</h3>
      <ul>
        {list.first.map((one, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list is replaced as a whole.
          <li key={at}>{line(one)}</li>
        ))}
        {rest > 0 ? <li className="quiet">{t('import.more', { count: rest })}</li> : null}
      </ul>
      {children}
    </div>
  );
}

function Differences(props: {
  readonly row: PreviewRow;
  readonly tables: readonly ShownTable[];
  readonly campaign: CampaignView;
}) {
  const { row, tables, campaign } = props;
  return (
    <>
      <b>{rowName(row)}</b> ({rowPlace(tables, row)}):{' '}
      {row.differences
        .map(({ field, there, here }) =>
          t('import.differs.line', {
            field: fieldWords(row.kind, field),
            there: wordsOf(row.kind, field, there, campaign),
            here: wordsOf(row.kind, field, here, campaign),
          }),
        )
        .join('; ')}
    </>
  );
}

/** Rows of this file that say something else since: corrected where a person gives a reason, left otherwise. */
function Changed(
  props: PreviewProps & {
    readonly correct: string | null;
    readonly onCorrect: (reason: string | null) => void;
  },
) {
  const { look, tables, campaign, correct, onCorrect } = props;
  const [reason, setReason] = useState('');
  const id = useId();
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (reason.trim() !== '') onCorrect(reason.trim());
  };
  return (
    <List
      tone="ask"
      title={t('import.changed', { count: look.changed.count })}
      list={look.changed}
      line={(row) => <Differences row={row} tables={tables} campaign={campaign} />}
    >
      {correct === null ? (
        <form className="words" onSubmit={send}>
          <label htmlFor={id}>{t('import.changed.why')}</label>
          <div className="answers">
            <input
              id={id}
              value={reason}
              maxLength={500}
              autoComplete="off"
              onChange={(event) => setReason(event.target.value)}
            />
            <button type="submit" disabled={reason.trim() === ''}>
              {t('import.changed.take')}
            </button>
          </div>
        </form>
      ) : (
        <div className="answers">
          <p>{t('import.changed.taken', { reason: correct })}</p>
          <button type="button" onClick={() => onCorrect(null)}>
            {t('import.changed.leave')}
          </button>
        </div>
      )}
    </List>
  );
}
