import { type FormEvent, useCallback, useEffect, useId, useRef, useState } from 'react';
import { Refusals } from '../forms/refusals.tsx';
import '../texts/for-sticks.ts';
import { t } from '../texts/t.ts';
import {
  type AtComputer,
  isAtComputer,
  lookForSticks,
  type Naming,
  type NewStick,
  nameStick,
  stopTest,
  type WantedName,
} from './gate.ts';
import { sizeWords } from './size-words.ts';
import './sticks.css';

/** How often it is looked, ms: while a stick is tested, and else. */
const lookAgain = { testing: 500, resting: 5_000 } as const;

/** At the camp computer itself: sticks that have no name yet, and their naming. Nothing elsewhere. */
export function NewSticks({ onNamed }: { readonly onNamed: () => void }) {
  const [at, setAt] = useState<AtComputer | null>(null);
  const [says, setSays] = useState<readonly string[]>([]);
  // What ended before anybody looked is no news.
  const [isFollowed, setFollowed] = useState(false);
  const tell = useRef(onNamed);
  tell.current = onNamed;
  const isTesting = at?.naming != null && at.naming.end === null;
  const look = useCallback(async () => {
    if (!(await isAtComputer())) return;
    try {
      setAt(await lookForSticks());
    } catch {
      // Away: it is asked again.
    }
  }, []);
  useEffect(() => {
    void look();
    const timer = setInterval(() => void look(), isTesting ? lookAgain.testing : lookAgain.resting);
    return () => clearInterval(timer);
  }, [look, isTesting]);
  useEffect(() => {
    if (isTesting) setFollowed(true);
  }, [isTesting]);
  const end = at?.naming?.end ?? null;
  const isNamed = isFollowed && end?.is === 'named';
  useEffect(() => {
    if (isNamed) tell.current();
  }, [isNamed]);
  const name = async (wanted: WantedName) => {
    setSays([]);
    try {
      await nameStick(wanted);
      setFollowed(true);
    } catch (error) {
      setSays([error instanceof Error ? error.message : String(error)]);
    }
    await look();
  };
  if (at === null) return null;
  const { naming, sticks } = at;
  return (
    <>
      <div role="status">
        {isFollowed && naming !== null && end !== null ? (
          <p className={end.is === 'named' ? 'stick-news' : 'stick-news call'}>{endWords(naming, end)}</p>
        ) : null}
      </div>
      {isTesting && naming !== null ? (
        <Testing naming={naming} onStop={() => void stopTest().then(look, () => undefined)} />
      ) : (
        sticks.map((stick) => <OneStick key={stick.place} stick={stick} says={says} onName={name} />)
      )}
    </>
  );
}

function Testing({ naming, onStop }: { readonly naming: Naming; readonly onStop: () => void }) {
  const { name, far } = naming;
  const says =
    far === null
      ? t('sticks.starting', { name })
      : t(far.doing === 'writing' ? 'sticks.writing' : 'sticks.reading', {
          name,
          done: sizeWords(far.bytes),
          of: sizeWords(far.of),
        });
  // Reading back is the second half of it.
  const share = far === null ? 0 : (far.bytes / far.of + (far.doing === 'reading' ? 1 : 0)) / 2;
  return (
    <section className="new-stick">
      <label>
        {says}
        <progress value={share} max={1} />
      </label>
      <p className="hint">{t('sticks.leave')}</p>
      <div className="answers">
        <button type="button" onClick={onStop}>
          {t('sticks.stop')}
        </button>
      </div>
      <p className="hint">{t('sticks.stop.hint')}</p>
    </section>
  );
}

const tests = ['short', 'all', 'none'] as const;

function OneStick(props: {
  readonly stick: NewStick;
  readonly says: readonly string[];
  readonly onName: (wanted: WantedName) => Promise<void>;
}) {
  const { stick, says, onName } = props;
  const id = useId();
  const [name, setName] = useState('');
  const [test, setTest] = useState<WantedName['test']>('short');
  const [withNetwork, setWithNetwork] = useState(true);
  const [isBusy, setBusy] = useState(false);
  const [isOpen, setOpen] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setBusy(true);
    await onName({ place: stick.place, name: name.trim(), test, withoutNetwork: !withNetwork });
    setBusy(false);
  };
  return (
    <form
      className="words new-stick"
      onSubmit={(event) => void submit(event)}
      aria-labelledby={`${id}-title`}
    >
      <h2 id={`${id}-title`}>{t('sticks.title')}</h2>
      <p>
        {t('sticks.about', {
          label: stick.label,
          bytes: sizeWords(stick.bytes),
          free: sizeWords(stick.free),
        })}
      </p>
      {stick.canWrite ? null : <p className="call">{t('sticks.protected')}</p>}
      {stick.name === null ? null : <p>{t('sticks.known', { name: stick.name })}</p>}
      {stick.canWrite && !isOpen ? (
        <div className="answers">
          <button type="button" onClick={() => setOpen(true)}>
            {t('sticks.open')}
          </button>
        </div>
      ) : null}
      {stick.canWrite && isOpen ? (
        <>
          <p className="hint">{t('sticks.keeps')}</p>
          {stick.name === null ? (
            <>
              <label htmlFor={`${id}-name`}>{t('sticks.name')}</label>
              <input
                id={`${id}-name`}
                value={name}
                required
                maxLength={40}
                autoComplete="off"
                aria-describedby={`${id}-hint`}
                onChange={(event) => setName(event.target.value)}
              />
              <p className="hint" id={`${id}-hint`}>
                {t('sticks.name.hint')}
              </p>
            </>
          ) : null}
          <fieldset>
            <legend>{t('sticks.test')}</legend>
            {tests.map((one) => (
              <label key={one} className="stick-choice">
                <input
                  type="radio"
                  name={`${id}-test`}
                  checked={test === one}
                  onChange={() => setTest(one)}
                />
                <span>{t(`sticks.test.${one}`)}</span>
              </label>
            ))}
          </fieldset>
          <label className="stick-choice">
            <input
              type="checkbox"
              checked={withNetwork}
              aria-describedby={`${id}-network`}
              onChange={(event) => setWithNetwork(event.target.checked)}
            />
            <span>{t('sticks.network')}</span>
          </label>
          <p className="hint" id={`${id}-network`}>
            {t('sticks.network.hint')}
          </p>
          <Refusals says={says} />
          <button type="submit" className="act" disabled={isBusy}>
            {stick.name === null ? t('sticks.do') : t('sticks.use', { name: stick.name })}
          </button>
        </>
      ) : null}
    </form>
  );
}

function endWords({ label, name }: Naming, end: NonNullable<Naming['end']>): string {
  switch (end.is) {
    case 'named':
      return end.testedBytes === null
        ? t('sticks.named', { name })
        : t('sticks.named.tested', { name, tested: sizeWords(end.testedBytes) });
    case 'stopped':
      return t('sticks.stopped', { label });
    case 'failed':
      return t('sticks.failed', { label, what: end.what, mend: end.mend });
  }
}
