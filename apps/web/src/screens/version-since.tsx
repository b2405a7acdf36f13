import { type Comparison, comparison, type HoleView, thingsOf } from '@firnbook/campaign';
import { readVersion } from '@firnbook/exchange/version-file';
import { useEffect, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { nameHere } from '../texts/names.ts';
import { sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';

type Since = { readonly is: 'looking' | 'not here' } | { readonly is: 'wrong'; readonly why: string } | Found;
interface Found {
  readonly is: 'found';
  readonly told: Comparison;
}

/** Pieces and changes told one by one; the rest is counted. */
const most = 20;

/** What moved since a version, and because of which readings; the solver's thread works it out. */
export function VersionSince(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly name: string;
  readonly sha256: string;
}) {
  const { book, hole, name, sha256 } = props;
  const [since, setSince] = useState<Since>({ is: 'looking' });
  const solution = book.solved[hole.id]?.solution;
  const { camp } = book.safety;
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the depths change, or the camp computer comes back.
  useEffect(() => {
    let isWanted = true;
    compare(book, hole, name, sha256).then(
      (found) => isWanted && setSince(found),
      (error: unknown) =>
        isWanted && setSince({ is: 'wrong', why: error instanceof Error ? error.message : String(error) }),
    );
    return () => {
      isWanted = false;
    };
  }, [solution, sha256, camp]);
  switch (since.is) {
    case 'looking':
      return <p role="status">{t('versions.comparing', { name })}</p>;
    case 'not here':
      return <p className="quiet">{t('versions.not.here')}</p>;
    case 'wrong':
      return <p className="call">{t('versions.not.read', { why: since.why })}</p>;
    case 'found':
      return <Told told={since.told} />;
  }
}

async function compare(book: BookHandle, hole: HoleView, name: string, sha256: string): Promise<Since> {
  const file = await book.readFile(sha256);
  if (file === null) return { is: 'not here' };
  const { version, names } = readVersion({ name, bytes: new Uint8Array(await file.arrayBuffer()) });
  const difference = await book.movements(hole.id, version);
  if (difference === null) return { is: 'looking' };
  const now = new Map(thingsOf(hole).map((thing) => [thing.id, nameHere(thing)]));
  return { is: 'found', told: comparison(difference, (id) => now.get(id) ?? names.get(id) ?? id) };
}

function Told({ told }: { readonly told: Comparison }) {
  const { changes, common, moved, appeared, gone } = told;
  const list = (sentences: readonly string[]) => (
    <ul>
      {sentences.slice(0, most).map((one) => (
        <li key={one}>{one}</li>
      ))}
      {sentences.length > most ? (
        <li className="quiet">{t('versions.more', { count: sentences.length - most })}</li>
      ) : null}
    </ul>
  );
  return (
    <div className="since" role="status">
      {changes.length === 0 ? (
        <p>{t('versions.same')}</p>
      ) : (
        <>
          <p>{t('versions.changes', { count: changes.length })}</p>
          {list(changes.map((one) => sayHere(one)))}
        </>
      )}
      {moved.length === 0 ? (
        <p>{t('versions.moved.none', { count: common })}</p>
      ) : (
        <>
          <p>{t('versions.moved', { moved: moved.length, common })}</p>
          {list(moved.map(({ says }) => sayHere(says)))}
        </>
      )}
      {appeared.length > 0 ? <p>{t('versions.appeared', { names: cut(appeared) })}</p> : null}
      {gone.length > 0 ? <p>{t('versions.gone', { names: cut(gone) })}</p> : null}
    </div>
  );
}

const cut = (names: readonly string[]): string =>
  names.length <= most
    ? names.join(', ')
    : `${names.slice(0, most).join(', ')} ${t('versions.more', { count: names.length - most })}`;
