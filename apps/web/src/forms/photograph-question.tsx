import { type ChangeEvent, type ReactNode, useId, useState } from 'react';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';
import { usePicture } from './use-picture.ts';

/** Pictures of a phone are 2 to 12 MB; more is a film, which belongs on a disk of its own. */
const most = 50_000_000;

export interface PhotographQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  /** Keeps the picture on this device and answers with its SHA-256. */
  readonly onKeep: (picture: Blob) => Promise<string>;
  readonly onTake: (sha256: string) => void;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** A picture from the camera or from the device's files, looked at before it is kept. */
export function PhotographQuestion(props: PhotographQuestionProps) {
  const { title, hint, onKeep, onTake, onBack, refusals } = props;
  const [picture, setPicture] = useState<File | null>(null);
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const address = usePicture(picture);
  const id = useId();
  const pick = (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    if (file === undefined) return;
    const isRight = file.size > 0 && file.size <= most;
    setWrong(isRight ? [] : [t(file.size === 0 ? 'photograph.empty' : 'photograph.large')]);
    setPicture(isRight ? file : null);
  };
  const take = () => {
    if (picture === null) return;
    onKeep(picture).then(onTake, (error: unknown) =>
      setWrong([t('photograph.not.kept', { why: error instanceof Error ? error.message : String(error) })]),
    );
  };
  const source = (key: 'camera' | 'file') => (
    <span className="pick">
      <input
        id={`${id}-${key}`}
        type="file"
        accept="image/*"
        {...(key === 'camera' ? { capture: 'environment' as const } : {})}
        onChange={pick}
      />
      <label htmlFor={`${id}-${key}`} className="button">
        {t(`photograph.${key}`)}
      </label>
    </span>
  );
  return (
    <ChoiceQuestion
      title={title}
      hint={hint}
      choices={picture ? [{ key: 'keep', usual: true, label: t('photograph.keep'), onTake: take }] : []}
      refusals={wrong.length > 0 ? wrong : refusals}
      onBack={onBack}
    >
      {address ? (
        <span className="picture">
          <img src={address} alt={t('photograph.alt')} />
        </span>
      ) : null}
      <div className="picks">
        {source('camera')}
        {source('file')}
      </div>
    </ChoiceQuestion>
  );
}
