/** Brings the focus to the start of the place where the button that had it is going. */
export function focusPlace(): void {
  document.querySelector<HTMLElement>('main')?.focus({ preventScroll: true });
}
