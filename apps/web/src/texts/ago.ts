import { t } from './t.ts';

/** How long ago, in the coarsest words that still tell: "just now", "12 min", "3 h", "2 days". */
export function ago(iso: string, now: number): string {
  const minutes = Math.floor((now - Date.parse(iso)) / 60_000);
  if (!(minutes >= 1)) return t('ago.now');
  if (minutes < 60) return t('ago.minutes', { count: minutes });
  const hours = Math.floor(minutes / 60);
  if (hours < 48) return t('ago.hours', { count: hours });
  return t('ago.days', { count: Math.floor(hours / 24) });
}
