// What each of the manager's choices is expected to cost from here on, by the lot's frozen terms.
import type { LotBounds } from './bounds.ts'

export type CordCosts = { costTestCents: number; costEscapeCents: number; costReturnCents: number }

/** Nonconforming cords expected among the untested, and what the expectation rests on: the supplier's finished lots and this sample, or this sample alone. */
export type ExpectedUntested = { cords: number; by: { kind: 'finished-lots'; lots: number } | { kind: 'sample' } }

/** Cents. `expected` is undefined where nothing fair can be expected; `least` and `most` come from the lot's bounds. */
export type Amount = { expected: number | undefined; least: number; most: number }

export type Choice = 'accept' | 'screen' | 'return'

export type Consequences = Record<Choice, Amount> & {
  expectedUntested: ExpectedUntested | undefined
  /** the choice that costs less than any other in expectation, or whatever the lot holds; undefined where that cannot be said */
  leastCostly: Choice | undefined
}

/**
 * Costs that are still to come. Tests already done are the same whatever is decided and are left out. Accepting: the
 * nonconforming cords among the untested, each an escape, as those found are removed. Screening: tests of the remaining
 * cords, and a return wherever nonconforming cords go back at the end. The bounds are one-sided, each at the proof's confidence.
 *
 * @param expectedUntested undefined where nothing is known beforehand and the sample's own fraction would be biased
 * @param undecided drawn cords nobody has ruled on: while there is one the lot may only be returned, and no choice is compared
 */
export function consequencesOf(
  proof: LotBounds,
  costs: CordCosts,
  expectedUntested: ExpectedUntested | undefined = ofSample(proof),
  undecided = 0,
): Consequences {
  const { found, lowerInLot, upperInUntested, upperInLot, untested } = proof
  const { costTestCents, costEscapeCents, costReturnCents } = costs
  const tests = untested * costTestCents
  const amounts: Record<Choice, Amount> = {
    accept: {
      expected: expectedUntested && expectedUntested.cords * costEscapeCents,
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
  // none found in the sample alone proves nothing: then only the bounds are compared
  const fair = expectedUntested?.by.kind === 'sample' && found === 0 ? undefined : amounts.accept.expected
  const compared = { ...amounts, accept: { ...amounts.accept, expected: fair } }
  return {
    ...amounts,
    expectedUntested,
    leastCostly: undecided > 0 ? undefined : leastCostlyOf(compared, untested > 0),
  }
}

/** The sample's own fraction carried over to the untested cords. */
function ofSample({ expectedInUntested }: LotBounds): ExpectedUntested | undefined {
  return expectedInUntested === undefined ? undefined : { cords: expectedInUntested, by: { kind: 'sample' } }
}

/** Where an expectation is missing, a choice is named only if its most is below the other's least. */
function leastCostlyOf(amounts: Record<Choice, Amount>, canScreen: boolean): Choice | undefined {
  const choices: Choice[] = canScreen ? ['accept', 'screen', 'return'] : ['accept', 'return']
  return choices.find((one) => choices.every((other) => other === one || isBelow(amounts[one], amounts[other])))
}

function isBelow(one: Amount, other: Amount): boolean {
  return (one.expected ?? one.most) < (other.expected ?? other.least)
}
