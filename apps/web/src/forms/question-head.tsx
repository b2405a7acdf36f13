import type { ReactNode } from 'react';
import { t } from '../texts/t.ts';
import { Icon } from './icons.tsx';

/** What is asked, and the way back where there is one. */
export function QuestionHead(props: {
  readonly id: string;
  readonly title: ReactNode;
  readonly onBack?: (() => void) | undefined;
}) {
  const { id, title, onBack } = props;
  return (
    <div className="question-head">
      {onBack ? (
        <button type="button" className="back" onClick={onBack} aria-label={t('form.back')}>
          <Icon name="left" />
        </button>
      ) : null}
      <h1 id={id}>{title}</h1>
    </div>
  );
}
