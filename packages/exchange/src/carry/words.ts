/** English of what can be wrong with a file or a line of it. */
export const carryWords = {
  strange: 'This is no file that firnbook wrote for another device.',
  newer:
    'The file is of format {{format}}, and this version reads format 1. Bring both devices to one version.',
  long: 'The line is longer than 4 MB.',
  garbled: 'The line can not be read.',
  unknown: 'The line is neither an entry nor a piece of an attachment.',
  behind: 'The line stands behind the end of the file.',
  entry: 'The entry is refused: {{what}}.',
  target:
    'The entry is left, because what it corrects is not here and not in the file. Ask for a copy of everything.',
  piece: 'The piece of an attachment is not readable or not where it belongs.',
  incomplete: 'A part of attachment {{name}} is missing.',
  digest: 'Attachment {{name}} was changed on its way.',
} as const;

export interface CarryProblem {
  readonly key: keyof typeof carryWords;
  readonly values: Readonly<Record<string, string>>;
}

/** In English, for whoever has no catalogue. */
export const carryProblemWords = ({ key, values }: CarryProblem): string =>
  carryWords[key].replace(/\{\{(\w+)\}\}/g, (_, name: string) => values[name] ?? '');
