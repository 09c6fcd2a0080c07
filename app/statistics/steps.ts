// What is refused because it would take too many steps, known before it begins: never because of the clock.

/**
 * Thrown before the work by what could be worked out exactly, but in more steps than it is given. The same question is always refused,
 * on every machine: what is answered never depends on how busy it is.
 */
export class TooManySteps extends RangeError {
  readonly steps: number

  constructor(what: string, steps: number, most: number) {
    super(`${what} would take ${steps} steps, more than ${most}`)
    this.steps = steps
  }
}
