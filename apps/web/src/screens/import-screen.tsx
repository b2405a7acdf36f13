import type { CampaignView } from '@firnbook/campaign';
import { type ChangeEvent, useEffect, useId, useRef } from 'react';
import { Link } from 'wouter';
import { Refusals } from '../forms/refusals.tsx';
import type { Look } from '../import/task.ts';
import { type Stage, useImport } from '../import/use-import.ts';
import { t } from '../texts/t.ts';
import { ImportPreview } from './import-preview.tsx';
import { ImportQuestions } from './import-questions.tsx';
import { ImportTable } from './import-table.tsx';
import { MethodLink } from './method-link.tsx';
import { type PlaceProps, placeAddress } from './place.ts';
import './import.css';

/** A table file on its way into the book: picked, understood, looked at, confirmed, written. */
export function ImportScreen({ book, hole }: PlaceProps) {
  const work = useImport(book, hole.id);
  const { stage } = work;
  const { campaign } = book;
  const heading = useRef<HTMLHeadingElement>(null);
  // Each stage is a page of its own to whoever cannot see it change.
  useEffect(() => {
    if (stage.is !== 'pick') heading.current?.focus({ preventScroll: true });
  }, [stage.is]);
  if (campaign === null) return null;
  const within = () => {
    switch (stage.is) {
      case 'pick':
        return (
          <>
            <Refusals says={stage.wrong} />
            <PickFile label={t('import.pick')} onPick={work.pick} />
          </>
        );
      case 'reading':
        return (
          <>
            <p role="status">{t('import.reading', { file: stage.file })}</p>
            <div className="answers">
              <button type="button" onClick={work.leave}>
                {t('import.stop')}
              </button>
            </div>
          </>
        );
      case 'look':
        return <Looked stage={stage} work={work} campaign={campaign} />;
      case 'writing':
        return (
          <>
            <Refusals says={stage.wrong} />
            <label className="import-progress">
              <span role="status">{t('import.writing', { done: stage.done, total: stage.total })}</span>
              <progress value={stage.done} max={stage.total} />
            </label>
            <div className="answers">
              {stage.wrong.length > 0 ? (
                <button type="button" className="act" onClick={() => work.goOn(stage.file, stage.done)}>
                  {t('import.go.on')}
                </button>
              ) : (
                <button type="button" onClick={work.stop}>
                  {t('import.stop')}
                </button>
              )}
            </div>
          </>
        );
      case 'done':
        return (
          <>
            <Done stage={stage} />
            <div className="answers">
              <Link href={placeAddress(campaign.id, hole.letter, 'core')} className="button big-link">
                {t('import.to.core')}
              </Link>
              <PickFile label={t('import.pick.other')} onPick={work.pick} />
            </div>
          </>
        );
    }
  };
  return (
    <div className="work import">
      <section aria-busy={stage.is === 'look' && stage.isBusy}>
        <h1 ref={heading} tabIndex={-1}>
          {t('import.title')}
        </h1>
        {stage.is === 'pick' ? (
          <p className="hint">
            {t('import.hint')} <MethodLink page="spreadsheets" />
          </p>
        ) : null}
        {within()}
      </section>
    </div>
  );
}

/** What the file holds and how it is read at the left; what comes of it at the right. */
function Looked(props: {
  readonly stage: Extract<Stage, { readonly is: 'look' }>;
  readonly work: ReturnType<typeof useImport>;
  readonly campaign: CampaignView;
}) {
  const { stage, work, campaign } = props;
  const { tables, mapping, look, file } = stage;
  return (
    <div className="import-sides">
      <div className="import-how">
        <h2>{t('import.tables', { count: tables.length, file })}</h2>
        {isNothingNew(look) ? null : (
          <ImportQuestions
            questions={look.questions}
            tables={tables}
            mapping={mapping}
            onChange={work.change}
          />
        )}
        {campaign.holes.length > 1 ? (
          <HoleChoice
            holes={campaign.holes}
            hole={work.options.hole}
            onPick={(hole) => work.choose(mapping, { hole })}
          />
        ) : null}
        {tables.map((table, index) => (
          <ImportTable
            // biome-ignore lint/suspicious/noArrayIndexKey: a table is its place in the file.
            key={index}
            table={table}
            index={index}
            mapping={mapping}
            remembered={look.remembered.includes(index)}
            onChange={work.change}
          />
        ))}
      </div>
      <div className="import-what">
        <ImportPreview
          look={look}
          tables={tables}
          campaign={campaign}
          correct={work.options.correct}
          onCorrect={(correct) => work.choose(mapping, { correct })}
        />
        <Confirm stage={stage} onTake={() => work.confirm(mapping)} onLeave={work.leave} />
      </div>
    </div>
  );
}

/** Where everything is in the book already, no question of the file matters. */
const isNothingNew = (look: Look): boolean => look.writes === 0 && look.known > 0 && look.changed.count === 0;

function Done({ stage }: { readonly stage: Extract<Stage, { readonly is: 'done' }> }) {
  const isWhole = stage.done === stage.total;
  return (
    <div role="status" className="import-done">
      <p>
        <b>{t(isWhole ? 'import.done' : 'import.done.stopped', { ...stage })}</b>
      </p>
      <p>{t(isWhole ? 'import.done.kept' : 'import.done.stopped.hint')}</p>
    </div>
  );
}

/** The way on, or why there is none. */
function Confirm(props: {
  readonly stage: Extract<Stage, { readonly is: 'look' }>;
  readonly onTake: () => void;
  readonly onLeave: () => void;
}) {
  const { stage, onTake, onLeave } = props;
  const { look, isBusy, wrong } = stage;
  const isOpen = look.questions.length > 0;
  const isNothing = isNothingNew(look);
  return (
    <div className="import-confirm">
      <Refusals says={wrong} />
      {isNothing ? (
        <p role="status">
          <b>{t('import.nothing')}.</b> {t('import.nothing.known', { count: look.known })}
        </p>
      ) : null}
      {isOpen && look.writes > 0 ? <p className="call">{t('import.say.first')}</p> : null}
      <div className="answers">
        {look.writes > 0 ? (
          <button
            type="button"
            className={isOpen || isBusy ? undefined : 'act'}
            data-take
            disabled={isOpen || isBusy}
            onClick={onTake}
          >
            {t('import.take', { count: look.writes })}
          </button>
        ) : null}
        <button type="button" onClick={onLeave}>
          {t('import.leave')}
        </button>
        {isBusy ? <p role="status">{t('import.looking')}</p> : null}
      </div>
    </div>
  );
}

function PickFile(props: { readonly label: string; readonly onPick: (file: File) => void }) {
  const id = useId();
  const pick = (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    // The same file may be picked again.
    event.target.value = '';
    if (file !== undefined) props.onPick(file);
  };
  return (
    <span className="pick import-pick">
      <input
        id={id}
        type="file"
        accept=".csv,.tsv,.txt,.xlsx,text/csv,text/tab-separated-values,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
        onChange={pick}
      />
      <label htmlFor={id} className="button">
        {props.label}
      </label>
    </span>
  );
}

function HoleChoice(props: {
  readonly holes: readonly { readonly id: string; readonly letter: string }[];
  readonly hole: string;
  readonly onPick: (hole: string) => void;
}) {
  const id = useId();
  return (
    <div className="import-is">
      <label htmlFor={id}>{t('import.hole')}</label>
      <select id={id} value={props.hole} onChange={(event) => props.onPick(event.target.value)}>
        {props.holes.map((one) => (
          <option key={one.id} value={one.id}>
            {t('import.hole.is', { letter: one.letter })}
          </option>
        ))}
      </select>
    </div>
  );
}
