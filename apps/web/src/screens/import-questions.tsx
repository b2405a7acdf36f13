import type { ImportMapping, Question } from '@firnbook/exchange/sheets';
import { type FormEvent, useId, useState } from 'react';
import { observedNow } from '../device/observed.ts';
import type { ShownTable } from '../import/task.ts';
import { t } from '../texts/t.ts';
import { columnName } from './import-words.ts';

/** What the file does not prove and a person has to say, as questions with their answers. */
export function ImportQuestions(props: {
  readonly questions: readonly Question[];
  readonly tables: readonly ShownTable[];
  readonly mapping: ImportMapping;
  readonly onChange: (mapping: ImportMapping) => void;
}) {
  const { questions, tables, mapping, onChange } = props;
  return questions.map((question) => {
    const { about, table, column, choices } = question;
    const of = table === null || column === null ? undefined : tables[table]?.columns[column];
    const key = `${about} ${table} ${column}`;
    if (about === 'offset' || about === 'day')
      return <Typed key={key} about={about} mapping={mapping} onChange={onChange} />;
    return (
      <div className="ask" key={key} data-ask={about}>
        <h3>
          {t(`import.ask.${about}`, {
            column: of ? columnName(of) : '',
            example: of?.samples[0] ?? '',
          })}
        </h3>
        <div className="answers">
          {choices.map(({ label, mapping: next }) => (
            <button key={label} type="button" onClick={() => onChange(next)}>
              {answerWords(question, next, label)}
            </button>
          ))}
        </div>
      </div>
    );
  });
}

/** What a choice says of its column, in the crew's words. */
function answerWords({ about, table, column }: Question, mapping: ImportMapping, label: string): string {
  const reading = mapping.tables[table ?? -1]?.columns[column ?? -1];
  if (about === 'dates' && reading?.dates !== undefined) return t(`import.dates.${reading.dates}`);
  if (about === 'mark' && reading?.mark !== undefined) return t(`import.mark.${reading.mark}`);
  if (about === 'sheets' && mapping.areAllMeant) return t('import.ask.sheets.all');
  return label;
}

function Typed(props: {
  readonly about: 'offset' | 'day';
  readonly mapping: ImportMapping;
  readonly onChange: (mapping: ImportMapping) => void;
}) {
  const { about, mapping, onChange } = props;
  const id = useId();
  const [text, setText] = useState('');
  const here = observedNow(new Date()).slice(19);
  const take = (said: string) =>
    onChange(about === 'offset' ? { ...mapping, offset: said } : { ...mapping, givenDay: said });
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (text.trim() !== '') take(text.trim());
  };
  return (
    <form className="ask words" data-ask={about} onSubmit={send}>
      <h3>
        <label htmlFor={id}>{t(`import.ask.${about}`)}</label>
      </h3>
      <div className="answers">
        {about === 'offset' ? (
          <button type="button" onClick={() => take(here)}>
            {t('import.ask.here', { offset: here })}
          </button>
        ) : null}
        <input
          id={id}
          type={about === 'day' ? 'date' : 'text'}
          value={text}
          placeholder={about === 'offset' ? '+05:45' : undefined}
          autoComplete="off"
          onChange={(event) => setText(event.target.value)}
        />
        <button type="submit" disabled={text.trim() === ''}>
          {t('import.ask.take')}
        </button>
      </div>
      {about === 'offset' ? <p className="quiet">{t('import.ask.offset.hint')}</p> : null}
    </form>
  );
}
