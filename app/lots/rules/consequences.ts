// What each of the manager's choices is expected to cost from here on, by the lot's frozen terms.
import type { LotBounds } from './bounds.ts'

export type CordCosts = { costTestCents: number; costEscapeCents: number; costReturnCents: number }

/** Cents. `expected` is undefined where nothing fair can be expected; `least` and `most` come from the lot's bounds. */
export type Amount = { expected: number | undefined; least: number; most: number }

export type Consequences = {
  /** nonconforming cords among the untested, each an escape; the found ones are taken out */
  accept: Amount
  /** tests of the remaining cords, and a return wherever cords that do not conform go back at the end */
  screen: Amount
  return: Amount
}

/**
 * Costs that are still to come. Tests already done are the same whatever is decided and are left out.
 * The bounds are one-sided, each at the proof's confidence; the expectation is found ÷ recorded carried over to the
 * untested cords, and there is none after a stop at the rejection number or several stages, where it would be biased.
 */
export function consequencesOf(proof: LotBounds, costs: CordCosts): Consequences {
  const { found, lowerInLot, upperInUntested, upperInLot, expectedInUntested, untested } = proof
  const { costTestCents, costEscapeCents, costReturnCents } = costs
  const tests = untested * costTestCents
  return {
    accept: {
      expected: expectedInUntested === undefined ? undefined : expectedInUntested * costEscapeCents,
      least: (lowerInLot - found) * costEscapeCents,
      most: upperInUntested * costEscapeCents,
    },
    screen: {
      expected: found > 0 ? tests + costReturnCents : undefined,
      least: tests + (lowerInLot > 0 ? costReturnCents : 0),
      most: tests + (upperInLot > 0 ? costReturnCents : 0),
    },
    return: { expected: costReturnCents, least: costReturnCents, most: costReturnCents },
  }
}
