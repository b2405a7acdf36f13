import {
  allCountedTwice,
  depthSources,
  depthVersion,
  type HoleView,
  standing,
  type ThingView,
  thingsOf,
} from '@firnbook/campaign';
import { writeVersion } from '@firnbook/exchange/version-file';
import { type FormEvent, useId, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Refusals } from '../forms/refusals.tsx';
import { moment } from '../texts/numbers.ts';
import { sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import { MethodLink } from './method-link.tsx';
import { initialsOf } from './people.ts';
import type { PlaceProps } from './place.ts';
import { refusalLines } from './refusal-lines.ts';
import { restOf } from './saved.tsx';
import { RestTick } from './ticks.tsx';
import { VersionSince } from './version-since.tsx';
import './versions.css';

const textOf = (version: ThingView, field: string): string => version.readings[field]?.text ?? '';

/** Versions of the hole's depths that were signed off, and what moved since each of them. */
export function VersionsScreen({ book, hole }: PlaceProps) {
  const versions = [...standing(hole.others['depth version'])].reverse();
  return (
    <div className="work versions">
      <section>
        <h1>{t('versions.title', { letter: hole.letter })}</h1>
        <p className="hint">
          {t('versions.hint')} <MethodLink page="depth-scales" section="versions" />
        </p>
        <SignOff book={book} hole={hole} taken={versions.map((one) => textOf(one, 'name'))} />
        {versions.length === 0 ? <p className="empty">{t('versions.none')}</p> : null}
        <ol className="version-list">
          {versions.map((version) => (
            <Version key={version.id} book={book} hole={hole} version={version} />
          ))}
        </ol>
      </section>
    </div>
  );
}

function Version(props: { readonly book: BookHandle; readonly hole: HoleView; readonly version: ThingView }) {
  const { book, hole, version } = props;
  const [isOpen, setIsOpen] = useState(false);
  const [isMissing, setIsMissing] = useState(false);
  const { campaign } = book;
  const name = textOf(version, 'name');
  const save = async () => {
    const file = await book.readFile(textOf(version, 'table'));
    setIsMissing(file === null);
    if (file === null) return;
    const link = document.createElement('a');
    link.href = URL.createObjectURL(file);
    link.download = `${hole.name} ${name}.json`;
    link.click();
    URL.revokeObjectURL(link.href);
  };
  const note = textOf(version, 'note');
  if (campaign === null) return null;
  return (
    <li>
      <h2>{name}</h2>
      {note === '' ? null : <p>{note}</p>}
      <p className="quiet small">
        {t('versions.by', { by: initialsOf(campaign, version.by), at: moment(version.at) })} ·{' '}
        {t('versions.solver', { solver: textOf(version, 'solver') })} ·{' '}
        <span className="num">{t('reading.attachment', { sign: textOf(version, 'table').slice(0, 8) })}</span>{' '}
        <RestTick rest={restOf(book, version.entries)} />
      </p>
      <div className="answers">
        <button
          type="button"
          aria-expanded={isOpen}
          aria-label={t('versions.since.of', { name })}
          onClick={() => setIsOpen(!isOpen)}
        >
          {t('versions.since')}
        </button>
        <button
          type="button"
          aria-label={t('versions.file.of', { name })}
          onClick={() => void save().catch(() => setIsMissing(true))}
        >
          {t('versions.file')}
        </button>
      </div>
      {isMissing ? <p role="status">{t('versions.not.here')}</p> : null}
      {isOpen ? <VersionSince book={book} hole={hole} name={name} sha256={textOf(version, 'table')} /> : null}
    </li>
  );
}

/** The depths as they are now, under a name: the file first, then the entry that names it. */
function SignOff(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly taken: readonly string[];
}) {
  const { book, hole, taken } = props;
  const [isOpen, setIsOpen] = useState(false);
  const [name, setName] = useState('');
  const [note, setNote] = useState('');
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [isBusy, setIsBusy] = useState(false);
  const id = useId();
  const solved = book.solved[hole.id];
  const { campaign } = book;
  if (campaign === null) return null;
  if (solved === undefined || solved.solution.pieces.length === 0)
    return <p className="quiet">{t('versions.not.solved')}</p>;
  if (!solved.solution.converged) return <p className="call">{t('versions.rough')}</p>;
  const open = book.depths[hole.id]?.findings.length ?? 0;
  const keep = async () => {
    const { readings, solution } = solved;
    const version = depthVersion(name.trim(), hole.name, readings, solution, depthSources(hole, campaign));
    const names = new Map(thingsOf(hole).map((thing) => [thing.id, thing.name]));
    const table = await book.keepFile(
      new Blob([writeVersion({ version, names })], { type: 'application/json' }),
    );
    const said = await book.decide({
      do: 'log',
      kind: 'depth version',
      hole: hole.id,
      readings: {
        name: name.trim(),
        solver: solution.solver,
        table,
        ...(note.trim() !== '' && { note: note.trim() }),
      },
    });
    if (!said.ok) {
      setWrong(refusalLines(said.refusals));
      return;
    }
    setIsOpen(false);
    setName('');
    setNote('');
    setWrong([]);
  };
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === '' || isBusy) return;
    if (taken.some((one) => one.toLowerCase() === name.trim().toLowerCase())) {
      setWrong([t('versions.taken')]);
      return;
    }
    setIsBusy(true);
    keep()
      .catch((error: unknown) =>
        setWrong([t('import.not.kept', { why: error instanceof Error ? error.message : String(error) })]),
      )
      .finally(() => setIsBusy(false));
  };
  if (!isOpen)
    return (
      <button type="button" className="act sign-off" onClick={() => setIsOpen(true)}>
        {t('versions.sign')}
      </button>
    );
  return (
    <form className="words sign-off" onSubmit={send}>
      <Refusals says={wrong} />
      {open > 0 ? <p className="call">{t('versions.open', { count: open })}</p> : null}
      {allCountedTwice(hole).map((one) => (
        <p key={sayHere(one)} className="call">
          {sayHere(one)}
        </p>
      ))}
      <label htmlFor={`${id}-name`}>{t('versions.name')}</label>
      <input
        id={`${id}-name`}
        value={name}
        maxLength={40}
        autoComplete="off"
        // biome-ignore lint/a11y/noAutofocus: the person has just asked for this field.
        autoFocus
        onChange={(event) => {
          setName(event.target.value);
          setWrong([]);
        }}
      />
      <label htmlFor={`${id}-note`}>{t('versions.note')}</label>
      <textarea
        id={`${id}-note`}
        rows={2}
        value={note}
        maxLength={2000}
        onChange={(event) => setNote(event.target.value)}
      />
      <div className="answers">
        <button type="submit" className="act" disabled={name.trim() === '' || isBusy}>
          {t('versions.take')}
        </button>
        <button type="button" onClick={() => setIsOpen(false)}>
          {t('versions.keep.back')}
        </button>
      </div>
    </form>
  );
}
