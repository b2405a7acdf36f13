import type { Ref } from 'react';
import { Icon } from '../forms/icons.tsx';
import { sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import { quantityWords } from './quantity-words.ts';
import type { Question } from './question.ts';
import type { Outcome } from './use-answer.ts';

/** What comes out, in figures and in words that a crew can read to each other. */
export function AnswerPart(props: {
  readonly question: Question;
  readonly outcome: Outcome;
  /** It belongs to the numbers before the one that is being typed. */
  readonly isOld: boolean;
  readonly missing: readonly string[];
  /** Something is marked above. */
  readonly isWrong: boolean;
  readonly hold: Ref<HTMLDivElement>;
}) {
  const { question, outcome, isOld, missing, isWrong, hold } = props;
  return (
    <section
      className={isOld ? 'calc-answer old' : 'calc-answer'}
      ref={hold}
      tabIndex={-1}
      aria-label={t('calc.answer')}
      aria-live="polite"
    >
      {outcome.state === 'missing' ? (
        <StillMissing question={question} missing={missing} isWrong={isWrong} />
      ) : null}
      {outcome.state === 'working' ? <p className="hint">{t('calc.working')}</p> : null}
      {outcome.state === 'refused' ? (
        <div className="ask refusal">
          <p>{outcome.problem}</p>
        </div>
      ) : null}
      {outcome.state === 'worked' ? <Said question={question} outcome={outcome} /> : null}
    </section>
  );
}

function StillMissing(props: {
  readonly question: Question;
  readonly missing: readonly string[];
  readonly isWrong: boolean;
}) {
  const { question, missing, isWrong } = props;
  if (missing.length === 0) return <p className="hint">{isWrong ? t('calc.mend') : '…'}</p>;
  const name = quantityWords(question.relation, 'take', missing[0]!);
  return <p className="hint">{t('calc.missing', { count: missing.length, name })}</p>;
}

function Said(props: {
  readonly question: Question;
  readonly outcome: Extract<Outcome, { state: 'worked' }>;
}) {
  const { headlines, says, warns = [] } = props.question.answer(props.outcome.worked);
  return (
    <>
      <div className="calc-headlines">
        {headlines.map(({ label, figure }) => (
          <p key={label.key}>
            <span className="quiet">{sayHere(label)}</span>
            <b className="num">{figure}</b>
          </p>
        ))}
      </div>
      {says.map((said) => (
        <p key={said.key} className="say">
          {sayHere(said)}
        </p>
      ))}
      {warns.length > 0 ? (
        <div className="ask">
          {warns.map((said) => (
            <p key={said.key}>
              <Icon name="warn" /> {sayHere(said)}
            </p>
          ))}
        </div>
      ) : null}
    </>
  );
}
