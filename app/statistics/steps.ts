// What is refused because it would take too many steps: never because of the clock.

/**
 * Thrown by what could be worked out exactly, but in more steps than it is given. The same question is always refused, on every
 * machine: what is answered never depends on how busy it is.
 */
export class TooManySteps extends RangeError {}
