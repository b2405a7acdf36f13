import type { ReactNode } from 'react';
import { typedNumber } from '../forms/typed.ts';
import { t } from '../texts/t.ts';
import { type Field, fieldNumber } from './fields.ts';
import { methodPage } from './method-page.ts';
import { quantityWords } from './quantity-words.ts';
import { numberOf, type Question, type Worked } from './question.ts';
import { rounded } from './rounded.ts';
import { withUnit } from './unit-words.ts';

/** How an answer came about: what went in and from where, what each range rests on, what the uncertainty is made of. */
export function HowPart(props: {
  readonly question: Question;
  readonly fields: readonly Field[];
  readonly worked: Worked | null;
}) {
  const { question, fields, worked } = props;
  const { relation } = question;
  const choices = Object.entries(relation.takes).filter(([, { kind }]) => kind === 'choice');
  return (
    <section className="calc-how" aria-label={t('calc.how.title')}>
      <p>
        <a href={methodPage(relation)} target="_blank" rel="noopener" className="link">
          {t('how.method')}
          <span className="hidden"> {t('how.new.tab')}</span>
        </a>
        {': '}
        {relation.title}
      </p>
      <p className="small quiet">{t('calc.how.source', { source: relation.source })}</p>
      <h2 className="how-part">{t('calc.how.in')}</h2>
      <dl className="facts wide">
        {choices.map(([name]) => (
          <Line
            key={name}
            label={quantityWords(relation, 'take', name)}
            says={String(worked?.taken[name]?.value ?? '')}
            face=""
          />
        ))}
        {fields.map((field) => (
          <Line
            key={field.take}
            label={
              <>
                {quantityWords(relation, 'take', field.take)}
                <small className="quiet"> {t(`calc.how.from.${field.from}`)}</small>
              </>
            }
            says={typedNumber(field.text) === null ? '…' : withUnit(withSd(field), field.unit)}
          />
        ))}
      </dl>
      {worked === null ? null : <Parts question={question} worked={worked} />}
      <p className="small quiet note">{t('calc.how.sd')}</p>
    </section>
  );
}

/** A part smaller than this share of the whole changes it by less than a hundredth. */
const least = 0.14;

const withSd = ({ text, sd }: Field): string => (sd === '' ? text : `${text}\u00a0±\u00a0${sd}`);

/** Each number that came out, and which quantities its uncertainty comes from, the largest first. */
function Parts({ question, worked }: { readonly question: Question; readonly worked: Worked }) {
  const { relation } = question;
  const named = (from: string) =>
    Object.hasOwn(relation.takes, from) ? quantityWords(relation, 'take', from) : t('calc.how.own');
  return (
    <>
      <h2 className="how-part">{t('calc.how.out')}</h2>
      <dl className="facts wide">
        {Object.keys(relation.gives).flatMap((name) => {
          const found = numberOf(worked, name);
          if (found === null) return [];
          const { value, sd } = rounded(found.value, found.sd);
          const parts = [...worked.results[name]!.parts].sort((one, other) => other.sd - one.sd);
          const whole = found.sd ?? 0;
          return [
            <Line
              key={name}
              label={quantityWords(relation, 'give', name)}
              says={withUnit(sd === null ? value : `${value}\u00a0±\u00a0${sd}`, found.unit)}
            >
              {parts
                .filter((part) => parts.length > 1 && part.sd > whole * least)
                .map((part) => (
                  <small key={part.from} className="quiet">
                    {t('calc.how.part', {
                      sd: withUnit(fieldNumber(part.sd, 2), found.unit),
                      quantity: named(part.from),
                    })}
                  </small>
                ))}
            </Line>,
          ];
        })}
      </dl>
    </>
  );
}

function Line(props: {
  readonly label: ReactNode;
  readonly says: string;
  readonly face?: string;
  readonly children?: ReactNode;
}) {
  return (
    <div>
      <dt>{props.label}</dt>
      <dd className={props.face ?? 'num'}>{props.says}</dd>
      {props.children === undefined ? null : <dd className="calc-parts">{props.children}</dd>}
    </div>
  );
}
