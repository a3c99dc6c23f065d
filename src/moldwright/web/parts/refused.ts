/** What the desk answers when it refuses: the object that `--json` prints, and how it is shown. */

export type Value = number | string | null;

export interface ErrorObject {
  family: string;
  code: string;
  actual: Value;
  limit: Value;
  unit: string;
  remedy: string;
}

export interface SaidOfError {
  found: string;
  wanted: string;
  /** Where the remedy leads: words and address of a link, "" for none. */
  way: string;
  path: string;
}

/** A refusal that a person can act on. */
export class Refused extends Error implements ErrorObject {
  readonly family: string;
  readonly code: string;
  readonly actual: Value;
  readonly limit: Value;
  readonly unit: string;
  readonly remedy: string;

  constructor(
    error: ErrorObject,
    readonly said: SaidOfError,
    readonly status: number,
  ) {
    super(`${error.code}: ${said.found}`);
    this.family = error.family;
    this.code = error.code;
    this.actual = error.actual;
    this.limit = error.limit;
    this.unit = error.unit;
    this.remedy = error.remedy;
  }
}

/** The desk did not answer: no Wi-Fi, or it is not open. Nothing is known of whether it was done. */
export class NoAnswer extends Error {}
