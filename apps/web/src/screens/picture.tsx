import { useEffect, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { usePicture } from '../forms/use-picture.ts';
import { t } from '../texts/t.ts';

/** A photograph, from this device or the camp computer; where neither has it yet, that is said. */
export function Picture(props: {
  readonly book: BookHandle;
  readonly sha256: string;
  readonly name: string;
}) {
  const { book, sha256, name } = props;
  const [picture, setPicture] = useState<Blob | null | 'looking'>('looking');
  const { readFile } = book;
  const camp = book.safety.camp;
  // biome-ignore lint/correctness/useExhaustiveDependencies: looked for again when the camp computer comes back.
  useEffect(() => {
    let isWanted = true;
    readFile(sha256).then(
      (found) => isWanted && setPicture(found),
      () => isWanted && setPicture(null),
    );
    return () => {
      isWanted = false;
    };
  }, [readFile, sha256, camp]);
  const address = usePicture(picture === 'looking' ? null : picture);
  if (address)
    return (
      <a className="picture" href={address} target="_blank" rel="noreferrer">
        <img src={address} alt={name} />
      </a>
    );
  return (
    <p className="quiet small">{t(picture === 'looking' ? 'photograph.looking' : 'photograph.not.here')}</p>
  );
}
