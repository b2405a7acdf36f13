import type { ReactNode } from 'react';
import { t } from '../texts/t.ts';

type MethodPage =
  | 'closure'
  | 'depth'
  | 'depth-scales'
  | 'firn'
  | 'ice'
  | 'index'
  | 'melt'
  | 'piece-density'
  | 'spreadsheets'
  | 'verdict'
  | 'water-equivalent';

/**
 * "how": leads from a number to the page that says how it is made. In a tab of its own, so that no form and no dialog
 * is lost; the service worker has the page where there is no camp computer.
 */
export function MethodLink(props: {
  readonly page: MethodPage;
  /** Name of a heading of the page, as its address has it. */
  readonly section?: string;
  readonly children?: ReactNode;
}) {
  const { page, section, children } = props;
  const words = t(`how.page.${page}`);
  return (
    <a
      className="link"
      href={`/method/${page}.html${section === undefined ? '' : `#${section}`}`}
      target="_blank"
      rel="noopener"
      aria-label={children === undefined ? t('how.link', { page: words }) : undefined}
    >
      {children ?? t('ice.how')}
      {children === undefined ? null : <span className="hidden"> {t('how.new.tab')}</span>}
    </a>
  );
}
