import type { KeyboardEvent } from 'react';

/** Arrows walk through the buttons of a group; a held Enter takes nothing twice. */
export function walkButtons(event: KeyboardEvent<HTMLElement>): void {
  const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
  if (event.key === 'Enter' && event.repeat) event.preventDefault();
  if (step === undefined) return;
  event.preventDefault();
  const buttons = [...event.currentTarget.querySelectorAll('button')];
  const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
  buttons[(at + step + buttons.length) % buttons.length]?.focus();
}
