/** ISO 8601 with the offset of the place where this device is: "2031-06-14T11:42:05+05:45" (J7). */
export function observedNow(now: Date): string {
  const offset = -now.getTimezoneOffset();
  const local = new Date(now.getTime() + offset * 60_000).toISOString().slice(0, 19);
  const two = (value: number) => String(value).padStart(2, '0');
  const away = Math.abs(offset);
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.floor(away / 60))}:${two(away % 60)}`;
}
