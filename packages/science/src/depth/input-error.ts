/** The readings cannot be adjusted as they are; `where` names the reading, `message` says what to do. */
export class DepthInputError extends Error {
  readonly where: string;

  constructor(where: string, problem: string) {
    super(`${where}: ${problem}`);
    this.name = 'DepthInputError';
    this.where = where;
  }
}
